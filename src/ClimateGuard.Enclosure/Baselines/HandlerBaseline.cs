namespace ClimateGuard.Enclosure;

/// <summary>What is usual for one air handler, learned from other days; the median across days, so that a few faulty days do not move it.</summary>
/// <remarks>Where nothing can be learned, the physical range of any such unit stands in and the findings say so. Immutable.</remarks>
public sealed class HandlerBaseline
{
    private const double LeastFanRise = -0.3;
    private const double MostFanRise = 3.0;
    private const double SpeedBin = 0.1;
    private const double DamperBin = 0.1;
    private const double Lever = 5.0;
    private const int LeastDays = 3;
    private readonly Dictionary<int, double> riseBySpeed = [];
    private readonly Dictionary<int, double> shareByCommand = [];
    private readonly Dictionary<int, double> spreadByCommand = [];
    private readonly IReadOnlyList<HandlerDay> days;

    /// <summary>Learns from days.</summary>
    /// <param name="days">The other days of the same air handler; may be none.</param>
    public HandlerBaseline(IReadOnlyList<HandlerDay> days)
    {
        ArgumentNullException.ThrowIfNull(days);
        this.days = days;
        Learn(riseBySpeed, day => day.Coils.Where(b => b.BothClosed), b => Bin(b.FanSpeed, SpeedBin), b => b.Rise, LeastFanRise, MostFanRise);
        Learn(shareByCommand, day => day.Dampers.Where(b => b.Lever >= Lever && b.Possible), DamperKey, b => b.Share, -0.2, 1.2);
        LearnSpread();
        CoolingReach = Reach(b => b.Cooling >= 0.2, b => -b.Rise);
        Curve = CoilCurve.Usual(days.Select(day => day.Curve));
        HeatingReach = Reach(b => b.Heating >= 0.2, b => b.Rise);
    }

    /// <summary>How many days it learned from.</summary>
    public int Days => days.Count;

    /// <summary>How far the cooling coil usually pulls the air down, by command.</summary>
    public CoilCurve Curve { get; }

    /// <summary>A number of the other days.</summary>
    internal Usual Usually(string name, Func<HandlerSignals, double> work) => Usual.Of(days.Select(day => day.Features.Of(name, () => work(day.Signals))));

    /// <summary>How far the cooling coil usually pulls the air down at its best, in K; NaN when never seen.</summary>
    public double CoolingReach { get; }

    /// <summary>How far the heater usually lifts the air at its best, in K; NaN when never seen.</summary>
    public double HeatingReach { get; }

    /// <summary>What the fan and its motor usually add to the air, in K, as the lowest and the highest value to be expected.</summary>
    /// <remarks>Not learned: 0 to 2.5 K at full speed (common practice, no source; E.3, F04 has 0.5 to 1.5 K).</remarks>
    public (double Low, double High, bool Learned) FanRise(double speed)
    {
        if (riseBySpeed.TryGetValue(Bin(speed, SpeedBin), out var learned)) return (learned, learned, true);
        if (riseBySpeed.Count == 0) return (0.0, 2.5, false);
        var nearest = riseBySpeed.MinBy(pair => Math.Abs((pair.Key * SpeedBin) - speed));
        var scaled = nearest.Value * Math.Pow(speed / Math.Max(nearest.Key * SpeedBin, 0.1), 2);
        return (Math.Min(nearest.Value, scaled), Math.Max(nearest.Value, scaled), true);
    }

    /// <summary>The share of outdoor air to expect at a command of the dampers, and how much it usually varies within a day.</summary>
    /// <remarks>Learned from other days at that command; else closed means none, open means all, and between them little can be said.</remarks>
    internal (double Share, double Spread, bool Learned) OutdoorShare(DamperBlock block)
    {
        var key = DamperKey(block);
        if (shareByCommand.TryGetValue(key, out var learned)) return (Math.Clamp(learned, 0, 1), spreadByCommand.GetValueOrDefault(key), true);
        return block.Command <= CoilBlock.ClosedCommand ? (0, 0.1, false) : block.Command >= 0.98 ? (1, 0.25, false) : (block.Command, 0.35, false);
    }

    private static int Bin(double value, double width) => (int)Math.Round(value / width);

    private void Learn<T>(
        Dictionary<int, double> into, Func<HandlerDay, IEnumerable<T>> blocks, Func<T, int> bin, Func<T, double> value, double low, double high)
    {
        var byBin = days
            .SelectMany(day => blocks(day).GroupBy(bin).Select(g => (Bin: g.Key, Value: Robust.Median(g.Select(value)))))
            .Where(entry => entry.Value >= low && entry.Value <= high)
            .GroupBy(entry => entry.Bin)
            .Where(group => group.Count() >= LeastDays);
        foreach (var group in byBin) into[group.Key] = Robust.Median(group.Select(entry => entry.Value));
    }

    // Where the share moves within a day at one command, something else moves it, such as a return damper of its own.
    private void LearnSpread()
    {
        var widths = days
            .SelectMany(day => day.Dampers.Where(b => b.Lever >= Lever && b.Possible).GroupBy(DamperKey).Select(g => (
                Bin: g.Key, Width: Robust.Quantile(g.Select(b => b.Share), 0.9) - Robust.Quantile(g.Select(b => b.Share), 0.1))))
            .GroupBy(entry => entry.Bin);
        foreach (var group in widths) spreadByCommand[group.Key] = Robust.Quantile(group.Select(entry => entry.Width), 0.75);
    }

    private static int DamperKey(DamperBlock block) =>
        Bin(block.Command, DamperBin) + (double.IsNaN(block.ReturnCommand) ? 0 : 100 * (1 + Bin(block.ReturnCommand, 2 * DamperBin)));

    private double Reach(Func<CoilBlock, bool> open, Func<CoilBlock, double> pull) =>
        Robust.Quantile(
            days.Select(day => Robust.Quantile(day.Coils.Where(open).Select(pull), 0.9)).Where(best => best > 1), 0.6);
}
