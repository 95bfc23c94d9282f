namespace ClimateGuard.Enclosure;

/// <summary>How the air of a zone is being kept at a moment.</summary>
public enum Regime
{
    /// <summary>Nothing is known of the air.</summary>
    Unknown,

    /// <summary>Within the band, the control has room left.</summary>
    InControl,

    /// <summary>A command stands at its limit and the air is off its set point.</summary>
    AtCapacity,

    /// <summary>Off its set point and coming back.</summary>
    Recovering,

    /// <summary>No fan runs.</summary>
    Off,

    /// <summary>Kept at another temperature on purpose: nobody is there and the air is steady off its set point.</summary>
    SetBack,

    /// <summary>Off its set point, not at a limit and not coming back: what is known of the control does not explain it.</summary>
    OutsideTheModel,
}

/// <summary>Tells the regime minute by minute.</summary>
public static class Regimes
{
    private const double LimitCommand = 0.95;
    private const int Slope = 20;
    private const double ReturningKelvinsPerHour = 0.1;

    /// <summary>The regime of each minute.</summary>
    /// <param name="zone">The zone.</param>
    public static Regime[] Of(ZoneSignals zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var regimes = new Regime[zone.Frame.Minutes];
        if (zone.Error is not { } error) return regimes;
        for (var minute = 0; minute < regimes.Length; minute++) regimes[minute] = At(zone, error, minute);
        return regimes;
    }

    private static Regime At(ZoneSignals zone, double[] error, int minute)
    {
        if (double.IsNaN(error[minute])) return Regime.Unknown;
        if (zone.Handlers.Count > 0 && zone.Handlers.All(h => !h.FanOn[minute])) return Regime.Off;
        if (Math.Abs(error[minute]) <= zone.Zone.Band.Value / 2) return Regime.InControl;
        var cooling = zone.Handlers.Any(h => h.Cooling is { } c && c[minute] >= LimitCommand);
        var heating = zone.Handlers.Any(h => h.Heating is { } c && c[minute] >= LimitCommand);
        if ((error[minute] > 0 && cooling) || (error[minute] < 0 && heating)) return Regime.AtCapacity;
        var before = minute >= Slope ? error[minute - Slope] : double.NaN;
        var perHour = (Math.Abs(error[minute]) - Math.Abs(before)) * 60 / Slope;
        if (perHour < -ReturningKelvinsPerHour) return Regime.Recovering;
        if (zone.Handlers.Any(h => h.Of("occupied") is { } o && o[minute] < 0.5) && Math.Abs(perHour) < ReturningKelvinsPerHour) return Regime.SetBack;
        return Math.Abs(error[minute]) <= zone.Zone.Band.Value ? Regime.InControl : Regime.OutsideTheModel;
    }
}
