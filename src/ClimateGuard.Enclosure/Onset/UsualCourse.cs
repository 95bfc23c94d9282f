namespace ClimateGuard.Enclosure;

/// <summary>How a signal runs on other days, by the clock, and how far such days part from it: what moves each day moves no signal out of its course.</summary>
/// <param name="others">The same signal on other days: their frames and its means over <paramref name="step"/> minutes.</param>
/// <param name="step">Length of a block, min.</param>
/// <param name="quiet">How many blocks at the begin of a window count as quiet.</param>
internal sealed class UsualCourse(IReadOnlyList<(SignalFrame Frame, double[] Means)> others, int step, int quiet)
{
    /// <summary>Fewer other days say nothing of what is usual (common practice, no source).</summary>
    public const int LeastDays = 3;

    private const int DayMinutes = 1440;
    private const double TailShare = 0.9;
    private const double TailSigmas = 1.645;

    /// <summary>A window beside the median of the other days at the same clock, and the spread that those days have beside it, both from their quiet begin on.</summary>
    /// <param name="frame">The window.</param>
    /// <param name="means">Its means.</param>
    /// <returns>Means beside the usual course, in the unit of the signal, and their standard deviation on other days; NaN where no other day is known.</returns>
    public (double[] Beside, double Sigma) Of(SignalFrame frame, double[] means)
    {
        var days = others.Select(other => Enumerable.Range(0, means.Length).Select(block => At(other, frame, block)).ToArray()).ToList();
        var usual = Enumerable.Range(0, means.Length).Select(block => Robust.Median(days.Select(day => day[block]))).ToArray();
        var apart = days.SelectMany(day => FromQuiet(day, usual)).Select(Math.Abs);
        return (FromQuiet(means, usual), Robust.Quantile(apart, TailShare) / TailSigmas);
    }

    private double[] FromQuiet(double[] means, double[] usual)
    {
        double[] beside = [.. means.Select((mean, block) => mean - usual[block])];
        var begin = Robust.Median(beside.Take(quiet));
        return [.. beside.Select(value => value - begin)];
    }

    private double At((SignalFrame Frame, double[] Means) other, SignalFrame frame, int block)
    {
        var clock = MinuteOfDay(frame) + (block * step) - MinuteOfDay(other.Frame);
        var there = ((clock % DayMinutes) + DayMinutes) % DayMinutes / step;
        return there < other.Means.Length ? other.Means[there] : double.NaN;
    }

    private static int MinuteOfDay(SignalFrame frame) => (int)frame.Start.UtcDateTime.TimeOfDay.TotalMinutes;
}
