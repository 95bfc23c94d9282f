namespace ClimateGuard.Enclosure;

/// <summary>The cooling coil against its usual curve.</summary>
internal static class Coil
{
    /// <summary>Dirt and ice leave at least so much of a coil; less than that is a lack of water (common practice, no source).</summary>
    public const double LeastShareOfDirty = 0.58;

    private const double LeastCommand = 0.3;

    /// <summary>Pull over usual pull at the same commands of 30 % and more, and the minutes compared.</summary>
    public static (double Share, int Minutes) Share(HandlerCase known)
    {
        var (x, y, commands) = Compared(known, LeastCommand, 1.01);
        return commands.Count == 0 || x.Sum() <= 0 ? (double.NaN, 0) : (y.Sum() / x.Sum(), commands.Count);
    }

    /// <summary>How much further the air is pulled down than usual at the lowest commands of the window, in K: a leak beside the closed part of the valve.</summary>
    public static (double Kelvins, int Minutes) Excess(HandlerCase known)
    {
        var (usual, seen, commands) = Compared(known, 0, 0.6);
        if (usual.Count < 60) return (double.NaN, 0);
        var lowest = Robust.Quantile(commands, 0.25);
        var excess = Enumerable.Range(0, usual.Count).Where(i => commands[i] <= lowest + 0.02).Select(i => seen[i] - usual[i]).ToList();
        return (Robust.Median(excess), usual.Count);
    }

    /// <summary>Minutes with the heater at 5 % or more and the cooling valve closed; NaN without a heater.</summary>
    public static double HeatedMinutes(HandlerSignals s) =>
        s is { Heating: { } heating, Cooling: { } cooling } ? Enumerable.Range(0, heating.Length).Count(m => heating[m] >= 0.05 && cooling[m] <= CoilBlock.ClosedCommand) : double.NaN;

    /// <summary>Rise of the air for each 10 % of the heater's command while the cooling valve is closed, in K; NaN when hardly seen.</summary>
    public static double RiseWhileHeated(HandlerSignals s)
    {
        if (s is not { Heating: { } heating, Cooling: { } cooling, Supply: { } supply, Entering: { } entering }) return double.NaN;
        var rises = Enumerable.Range(0, heating.Length).Where(m => heating[m] >= 0.1 && cooling[m] <= CoilBlock.ClosedCommand)
            .Select(m => (supply[m] - entering[m]) / (10 * heating[m])).ToList();
        return rises.Count < 15 ? double.NaN : Robust.Median(rises);
    }

    /// <summary>Slope of pull over command as a share of the usual one, over at least 20 % of command; NaN when the command hardly moved.</summary>
    public static (double Share, double Range) Slope(HandlerCase known)
    {
        var (usual, seen, commands) = Compared(known, 0, 1.01);
        if (commands.Count < 60) return (double.NaN, 0);
        double low = Robust.Quantile(commands, 0.05), high = Robust.Quantile(commands, 0.95);
        if (high - low < 0.2) return (double.NaN, high - low);
        double cut = low + ((high - low) / 3), top = high - ((high - low) / 3);
        double Difference(List<double> pulls) =>
            Robust.Median(pulls.Where((_, i) => commands[i] >= top)) - Robust.Median(pulls.Where((_, i) => commands[i] <= cut));
        var expected = Difference(usual);
        return expected > 0.8 ? (Difference(seen) / expected, high - low) : (double.NaN, high - low);
    }

    /// <summary>A valve that does not move explains a weak coil.</summary>
    public static void FlatAgainst(HandlerCase known, List<Evidence> evidence)
    {
        var (share, range) = Slope(known);
        if (share < 0.3) evidence.Add(new(FormattableString.Invariant($"the supply air does not follow a command that moved by {100 * range:0} %"), -6, "flat response"));
    }

    private static (List<double> Usual, List<double> Seen, List<double> Commands) Compared(HandlerCase known, double least, double most)
    {
        List<double> usual = [], seen = [], commands = [];
        var force = known.Day.Curve.Commands;
        if (known.Signals is not { Supply: { } supply, Entering: { } entering }) return (usual, seen, commands);
        for (var minute = 0; minute < force.Length; minute++)
        {
            if (!(force[minute] >= least) || force[minute] >= most) continue;
            if (known.Signals.Heating is { } heating && heating[minute] > CoilBlock.ClosedCommand) continue;
            var expected = known.Baseline.Curve.Between(force[minute]) * CoilCurve.Lever(known.Signals, minute);
            var pull = entering[minute] - supply[minute];
            if (double.IsNaN(expected) || double.IsNaN(pull)) continue;
            usual.Add(expected);
            seen.Add(pull);
            commands.Add(force[minute]);
        }

        return (usual, seen, commands);
    }
}
