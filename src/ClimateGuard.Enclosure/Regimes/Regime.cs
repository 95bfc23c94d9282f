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
    /// <summary>From which command on a valve or heater gives all it has.</summary>
    public const double LimitCommand = 0.95;

    /// <summary>Over how many minutes it is seen whether the air comes back.</summary>
    public const int Slope = 20;

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

    /// <summary>The regime that signs tell.</summary>
    /// <param name="signs">What is seen.</param>
    /// <param name="bandKelvins">The band of the zone, plus or minus.</param>
    public static Regime Of(in RegimeSigns signs, double bandKelvins)
    {
        if (double.IsNaN(signs.ErrorKelvins)) return Regime.Unknown;
        if (signs.FansStand) return Regime.Off;
        var off = Math.Abs(signs.ErrorKelvins);
        if (off <= bandKelvins / 2) return Regime.InControl;
        if ((signs.ErrorKelvins > 0 && signs.CoolingAtLimit) || (signs.ErrorKelvins < 0 && signs.HeatingAtLimit)) return Regime.AtCapacity;
        if (signs.AskedElsewhere) return Regime.SetBack;
        var perHour = (off - Math.Abs(signs.ErrorBefore)) * 60 / Slope;
        if (perHour < -ReturningKelvinsPerHour) return Regime.Recovering;
        if (signs.Empty && Math.Abs(perHour) < ReturningKelvinsPerHour) return Regime.SetBack;
        return off <= bandKelvins ? Regime.InControl : Regime.OutsideTheModel;
    }

    private static Regime At(ZoneSignals zone, double[] error, int minute)
    {
        var elsewhere = zone.Lead?.Of("coolingSetpoint") is { } asked && zone.Mean is { } air
            && Math.Abs(asked[minute] - zone.Zone.Setpoint.Value) > zone.Zone.Band.Value / 2
            && Math.Abs(air[minute] - asked[minute]) <= zone.Zone.Band.Value / 2;
        return Of(
            new RegimeSigns(error[minute], minute >= Slope ? error[minute - Slope] : double.NaN)
            {
                FansStand = zone.Handlers.Count > 0 && zone.Handlers.All(h => !h.FanOn[minute]),
                CoolingAtLimit = zone.Handlers.Any(h => h.Cooling is { } c && c[minute] >= LimitCommand),
                HeatingAtLimit = zone.Handlers.Any(h => h.Heating is { } c && c[minute] >= LimitCommand),
                Empty = zone.Handlers.Any(h => h.Of("occupied") is { } o && o[minute] < 0.5),
                AskedElsewhere = elsewhere,
            },
            zone.Zone.Band.Value);
    }
}

/// <summary>What a regime is told from, at one moment.</summary>
/// <param name="ErrorKelvins">Air minus the set point of the plant file, K; NaN when the air is not known.</param>
/// <param name="ErrorBefore">The same twenty minutes before; NaN when it is not known.</param>
public readonly record struct RegimeSigns(double ErrorKelvins, double ErrorBefore)
{
    /// <summary>Whether no fan of the zone runs.</summary>
    public bool FansStand { get; init; }

    /// <summary>Whether a cooling command stands at its limit (0.95 or more).</summary>
    public bool CoolingAtLimit { get; init; }

    /// <summary>Whether a heating command stands at its limit (0.95 or more).</summary>
    public bool HeatingAtLimit { get; init; }

    /// <summary>Whether a signal says that nobody is there.</summary>
    public bool Empty { get; init; }

    /// <summary>Whether the set-point signal stands elsewhere than the plant file and the air is there.</summary>
    public bool AskedElsewhere { get; init; }
}
