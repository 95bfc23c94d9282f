using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>What the chart shows, in a sentence before it.</summary>
public static class ChartWords
{
    /// <summary>The sentence.</summary>
    public static string Of(ChartPoints points, string feature)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Budget is not { } budget)
        {
            return "Temperatures of the recent past. No feature decides at the moment, so no effect is drawn.";
        }

        var ahead = points.Ahead.Count > 0 ? " The dashed line is what the coming cut would see; its time is shaded." : "";
        return $"Above: temperatures. Below: the effect on {feature} between its budget lines at ±{Numbers.Micrometres(budget)} µm.{ahead} "
            + "Where nothing was known, the lines have a gap.";
    }
}
