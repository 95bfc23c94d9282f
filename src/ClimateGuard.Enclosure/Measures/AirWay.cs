namespace ClimateGuard.Enclosure;

/// <summary>Filter pressure, air flow and fan speed against other days, with the fan running.</summary>
internal static class AirWay
{
    /// <summary>A quantile of the half hours with the fan on; NaN when not measured.</summary>
    public static double Level(HandlerSignals signals, string role, double share)
    {
        if (signals.Of(role) is not { } row) return double.NaN;
        var running = new double[row.Length];
        var reported = signals.Of("fanStatus");
        for (var minute = 0; minute < row.Length; minute++) running[minute] = reported is null || reported[minute] >= 0.5 ? row[minute] : double.NaN;
        return Robust.Quantile(RowMath.Blocks(running, 30), share);
    }

    /// <summary>The level of this window over the usual one, and the first half hour beyond the middle between both.</summary>
    public static (double Ratio, int From) Ratio(HandlerCase known, string role, double share)
    {
        var name = FormattableString.Invariant($"{role}/{share:0.00}");
        var level = known.Number(name, s => Level(s, role, share));
        var middle = FormattableString.Invariant($"{role}/0.50");
        known.Number(middle, s => Level(s, role, 0.5));
        var usual = known.Baseline.Usually(name, s => Level(s, role, share));
        if (!usual.Learned || !(usual.Median > 0) || double.IsNaN(level)) return (double.NaN, -1);
        var blocks = RowMath.Blocks(known.Signals.Of(role)!, 30);
        var half = (level + usual.Median) / 2;
        return (level / usual.Median, 30 * Math.Max(0, Array.FindIndex(blocks, b => level > usual.Median ? b >= half : b <= half)));
    }

    /// <summary>Whether cooling is asked for, the fan is not reported off, and the supply air is as warm as the return air.</summary>
    public static bool SameAsReturn(HandlerSignals s, int minute) =>
        s is { Handler.OutdoorAir: false, Cooling: { } c, Supply: { } supply, Return: { } back } && c[minute] >= 0.5 && Math.Abs(supply[minute] - back[minute]) < 0.4
        && !(s.Of("fanStatus") is { } status && status[minute] < 0.5);

    /// <summary>The longest such time, in minutes.</summary>
    public static double SupplyAsReturn(HandlerSignals s) => RowMath.Longest(s.Frame.Minutes, m => SameAsReturn(s, m)).Minutes;

    /// <summary>The longest time with the fan reported off while cooling is asked for, in minutes; NaN without a report.</summary>
    public static double Stopped(HandlerSignals s) => s is { Cooling: { } c } && s.Of("fanStatus") is { } status
        ? RowMath.Longest(c.Length, m => status[m] < 0.5 && c[m] >= 0.2).Minutes : double.NaN;

    /// <summary>Whether the fan runs slower than usual by its own signal.</summary>
    public static bool SlowedDown(HandlerCase known) => Ratio(known, "fanSpeed", 0.15).Ratio < 0.9;

    /// <summary>Less air explains a weak coil or a warm room.</summary>
    public static void Against(HandlerCase known, List<Evidence> evidence)
    {
        var flow = Ratio(known, "airflow", 0.15).Ratio;
        var pressure = Ratio(known, "filterPressure", 0.85).Ratio;
        if (SupplyAsReturn(known.Signals) >= 20) evidence.Add(new("for a time the supply air was as warm as the return air, as without any air flow", -6, "no air"));
        if (flow < 0.85 || pressure > 1.4 || SlowedDown(known)) evidence.Add(new("less air than usual flows, which explains it", -5, "air way"));
    }
}
