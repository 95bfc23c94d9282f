namespace ClimateGuard.Thermal;

/// <summary>How a cut is divided: even steps of about a minute, at most 240.</summary>
internal static class CutSteps
{
    private const int MostSteps = 240;

    /// <summary>Length and count of the steps over the longest of the durations, and the last step of each.</summary>
    public static (TimeSpan Step, int Steps) Of(ReadOnlySpan<TimeSpan> durations, Medium medium, Span<int> lastStep)
    {
        var longest = durations[0];
        foreach (var duration in durations)
        {
            longest = duration > longest ? duration : longest;
        }

        var steps = medium == Medium.Still ? 0 : Math.Clamp((int)Math.Ceiling(longest.TotalMinutes), 1, MostSteps);
        var step = steps == 0 ? TimeSpan.Zero : longest / steps;
        for (var f = 0; f < durations.Length; f++)
        {
            lastStep[f] = steps == 0 ? 0 : (int)Math.Ceiling((durations[f] / step) - 1e-9);
        }

        return (step, steps);
    }
}
