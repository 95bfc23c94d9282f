using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>When the cut could start, in words.</summary>
public static class EarliestWords
{
    /// <summary>The time in large and what it means in small; null where the cut may start now or nothing is loaded.</summary>
    public static (string Big, string Small)? Of(Standing standing, DateTimeOffset now, CellTime time)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(time);
        if (!LevelLook.NeedsAPerson(standing.Level))
        {
            return null;
        }

        return (standing.EarliestSafe, standing.Level) switch
        {
            ({ } safe, _) when safe <= now => ("now", "earliest safe start"),
            ({ } safe, _) => (time.Near(safe, now), $"earliest safe start, in {CellTime.Length(safe - now)}"),
            (null, Level.Hold) when standing.NotWithinForecast => ("none yet", "no safe start within the forecast"),
            (null, Level.MeasureFirst) => ("after measuring", "earliest safe start"),
            _ => null,
        };
    }
}
