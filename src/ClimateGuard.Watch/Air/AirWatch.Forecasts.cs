using ClimateGuard.Enclosure;

namespace ClimateGuard.Watch;

/// <summary>What the air will be.</summary>
public sealed partial class AirWatch
{
    /// <summary>How the air of a zone is expected to move, or null when nothing better is known than that it stays.</summary>
    internal AirCourse? CourseOf(string zone) => forecasts.CourseOf(zone);

    // A forecast looks at the machines of its zone and at the zone beside it too, so it takes the whole frame.
    private void TakeForecasts(DateTimeOffset end)
    {
        if (forecasts.Zones.Count == 0) return;
        var wanted = forecasts.TakenTo is { } taken ? (int)Math.Clamp((end - taken).TotalMinutes, LiveSpan.QuickMinutes, window.Minutes) : window.Minutes;
        if (window.Before(end, wanted) is { } frame) forecasts.Take([.. forecasts.Zones.Select(zone => new ZoneSignals(cell, zone, frame))]);
    }

    private ZoneSnapshot WithForecast(ZoneSnapshot zone, int place) =>
        forecasts.Zones.Count == 0 ? zone : zone with { Forecast = forecasts.LatestOf(place), Scores = forecasts.ScoresOf(place) };
}
