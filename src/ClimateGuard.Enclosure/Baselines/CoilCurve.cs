namespace ClimateGuard.Enclosure;

/// <summary>How far a cooling coil pulls the entering air down at each tenth of its command, in K for air 10 K above its water; the fan's share included.</summary>
/// <remarks>
/// Without a chilled-water temperature the water is taken at 7 °C (common practice, no source).
/// The command is taken as its mean 3 to 12 minutes before, so that valve, coil and duct have followed (common practice, no source). Immutable.
/// </remarks>
public sealed class CoilCurve
{
    /// <summary>How many steps of the command.</summary>
    public const int Steps = 11;

    /// <summary>What a fan adds to the air when nothing better is known, in K (common practice, no source).</summary>
    public const double FanAlone = 0.5;

    private const int Oldest = 12;
    private const int Youngest = 3;
    private const int LeastMinutes = 20;
    private const double AssumedWater = 7.0;
    private const double LeastLever = 4.0;
    private const double StatedLever = 10.0;
    private const double StillRange = 0.15;
    private readonly double[] pulls;
    private readonly double[] filled;

    private CoilCurve(double[] pulls, int[] minutes, double[] commands)
    {
        this.pulls = pulls;
        filled = Filled(pulls);
        Minutes = minutes;
        Commands = commands;
    }

    /// <summary>Minutes seen at each step.</summary>
    public IReadOnlyList<int> Minutes { get; }

    /// <summary>The command in force at each minute; NaN while it moves or is not known.</summary>
    public double[] Commands { get; }

    /// <summary>The pull at a step, in K; NaN when hardly seen.</summary>
    public double At(int step) => pulls[step];

    /// <summary>The curve of a window.</summary>
    public static CoilCurve Of(HandlerSignals signals)
    {
        ArgumentNullException.ThrowIfNull(signals);
        var inForce = new double[signals.Frame.Minutes];
        Array.Fill(inForce, double.NaN);
        var seen = Enumerable.Range(0, Steps).Select(_ => new List<double>()).ToArray();
        if (signals is { Supply: { } supply, Entering: { } entering, Cooling: { } cooling })
        {
            for (var minute = Oldest; minute < inForce.Length; minute++)
            {
                var window = cooling.AsSpan(minute - Oldest, Oldest - Youngest + 1);
                if (!signals.FanOn[minute] || !(Robust.Range(window) <= StillRange) || !(supply[minute] > -40) || double.IsNaN(Lever(signals, minute))) continue;
                inForce[minute] = RowMath.Mean(cooling, minute - Oldest, Oldest - Youngest + 1);
                var heated = signals.Heating is { } heat && heat[minute] > CoilBlock.ClosedCommand;
                if (!heated) seen[Step(inForce[minute])].Add((entering[minute] - supply[minute]) / Lever(signals, minute));
            }
        }

        return new CoilCurve(
            [.. seen.Select(s => s.Count < LeastMinutes ? double.NaN : Robust.Median(s))], [.. seen.Select(s => s.Count)], inForce);
    }

    /// <summary>How far the entering air is above the water, as a multiple of 10 K; NaN when too little for the coil to show anything.</summary>
    public static double Lever(HandlerSignals signals, int minute)
    {
        ArgumentNullException.ThrowIfNull(signals);
        if (signals.Entering is not { } entering) return double.NaN;
        var water = signals.Of("chilledWater") is { } row && !double.IsNaN(row[minute]) ? row[minute] : AssumedWater;
        return entering[minute] - water >= LeastLever ? (entering[minute] - water) / StatedLever : double.NaN;
    }

    /// <summary>What is usual across curves: the median at each step.</summary>
    public static CoilCurve Usual(IEnumerable<CoilCurve> days)
    {
        ArgumentNullException.ThrowIfNull(days);
        var all = days.ToList();
        var pulls = Enumerable.Range(0, Steps).Select(step => Robust.Median(all.Select(c => c.At(step)))).ToArray();
        return new CoilCurve(pulls, [.. Enumerable.Range(0, Steps).Select(step => all.Count(c => !double.IsNaN(c.At(step))))], []);
    }

    /// <summary>The pull between the steps, in K; NaN outside what was seen.</summary>
    public double Between(double command)
    {
        if (double.IsNaN(command)) return double.NaN;
        var place = Math.Clamp(command, 0, 1) * (Steps - 1);
        var below = (int)place;
        var above = Math.Min(below + 1, Steps - 1);
        double low = filled[below], high = filled[above];
        return low + ((place - below) * (high - low));
    }

    /// <summary>How much further the coil pulls over its whole command, in K for air 10 K above its water; NaN when nothing was seen.</summary>
    public double WholeRange => Between(1) - Between(0);

    // A step not seen lies on the straight line from a closed coil, where the fan alone warms the air, through the steps that were seen.
    private static double[] Filled(double[] pulls)
    {
        var perStep = Robust.Median(Enumerable.Range(2, Steps - 2).Select(step => (pulls[step] + FanAlone) / step));
        return [.. pulls.Select((pull, step) => double.IsNaN(pull) ? (perStep * step) - FanAlone : pull)];
    }

    private static int Step(double command) => (int)Math.Round(Math.Clamp(command, 0, 1) * (Steps - 1));
}
