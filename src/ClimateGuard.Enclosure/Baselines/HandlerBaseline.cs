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
    private readonly Dictionary<int, double> riseBySpeed = [];
    private readonly Dictionary<int, double> shareByCommand = [];
    private readonly IReadOnlyList<HandlerDay> days;

    /// <summary>Learns from days.</summary>
    /// <param name="days">The other days of the same air handler; may be none.</param>
    public HandlerBaseline(IReadOnlyList<HandlerDay> days)
    {
        ArgumentNullException.ThrowIfNull(days);
        this.days = days;
        Learn(riseBySpeed, day => day.Coils.Where(b => b.BothClosed), b => Bin(b.FanSpeed, SpeedBin), b => b.Rise, LeastFanRise, MostFanRise);
        Learn(shareByCommand, day => day.Dampers.Where(b => b.Lever >= Lever), b => Bin(b.Command, DamperBin), b => b.Share, -0.2, 1.3);
        CoolingReach = Reach(b => b.Cooling >= 0.2, b => -b.Rise);
        HeatingReach = Reach(b => b.Heating >= 0.2, b => b.Rise);
    }

    /// <summary>How many days it learned from.</summary>
    public int Days => days.Count;

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

    /// <summary>The share of outdoor air to expect at a damper command, and by how much it may differ.</summary>
    /// <remarks>Learned from other days at that command; else closed means none, open means all, and between them little can be said.</remarks>
    public (double Share, double Tolerance, bool Learned) OutdoorShare(double command)
    {
        if (shareByCommand.TryGetValue(Bin(command, DamperBin), out var learned))
        {
            return (Math.Clamp(learned, 0, 1), command <= 0.02 ? ClosedTolerance : MovedTolerance, true);
        }

        return command <= 0.02 ? (0, 0.1, false) : command >= 0.98 ? (1, MovedTolerance, false) : (command, 0.35, false);
    }

    /// <summary>How much outdoor air a closed damper may let through beyond what is usual: what two good sensors can tell apart.</summary>
    public const double ClosedTolerance = 0.04;

    /// <summary>How far the share may differ from the usual one at any other command (E.3, F26).</summary>
    public const double MovedTolerance = 0.2;

    private static int Bin(double value, double width) => (int)Math.Round(value / width);

    private void Learn<T>(
        Dictionary<int, double> into, Func<HandlerDay, IEnumerable<T>> blocks, Func<T, int> bin, Func<T, double> value, double low, double high)
    {
        var byBin = days
            .SelectMany(day => blocks(day).GroupBy(bin).Select(g => (Bin: g.Key, Value: Robust.Median(g.Select(value)))))
            .Where(entry => entry.Value >= low && entry.Value <= high)
            .GroupBy(entry => entry.Bin);
        foreach (var group in byBin) into[group.Key] = Robust.Median(group.Select(entry => entry.Value));
    }

    private double Reach(Func<CoilBlock, bool> open, Func<CoilBlock, double> pull) =>
        Robust.Quantile(
            days.Select(day => Robust.Quantile(day.Coils.Where(open).Select(pull), 0.9)).Where(best => best > 1), 0.6);
}
