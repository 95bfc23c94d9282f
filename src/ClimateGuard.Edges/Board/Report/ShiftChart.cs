using System.Globalization;
using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>Mean deviation of each shift in the order of time, with the limits of the chart.</summary>
internal static class ShiftChart
{
    public static Drawing? Of(SamplingCase sampling)
    {
        if (sampling.Chart is not { } chart)
        {
            return null;
        }

        var means = sampling.ShiftMeans;
        var frame = new PlotFrame(
            Figures.PageWidth, 150, (1, means.Count), (Math.Min(means.Min(), chart.Limits.Low), Math.Max(means.Max(), chart.Limits.High)));
        frame.Axes("shift", "mean deviation, µm", shift => shift.ToString("0", CultureInfo.InvariantCulture), [.. PlotFrame.Ticks(1, means.Count, 8).Where(tick => tick == Math.Floor(tick))]);
        foreach (var (at, ink) in new[] { (chart.Mean, Ink.Grey), (chart.Limits.Low, Ink.Limit), (chart.Limits.High, Ink.Limit) })
        {
            frame.Curve([(1, at), (means.Count, at)], ink, 0.9);
        }

        for (var i = 0; i < means.Count; i++)
        {
            frame.Shapes.Add(new DotShape(frame.X(i + 1), frame.Y(means[i]), 2.6, chart.Beyond.Contains(i) ? Ink.Limit : Ink.Measured));
            if (chart.Beyond.Contains(i))
            {
                frame.Shapes.Add(new DotShape(frame.X(i + 1), frame.Y(means[i]), 6, Ink.Limit, Filled: false));
            }
        }

        return frame.Done();
    }
}
