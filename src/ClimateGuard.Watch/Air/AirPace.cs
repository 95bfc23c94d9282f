namespace ClimateGuard.Watch;

/// <summary>How often the air is judged, by event time.</summary>
/// <param name="Pass">From one pass to the next; quick causes, excursions and regimes are looked at in each.</param>
/// <param name="Judge">From one judgement of an air handler over a day to its next; at most one air handler a pass.</param>
public sealed record AirPace(TimeSpan Pass, TimeSpan Judge)
{
    /// <summary>Every five minutes; each air handler every quarter of an hour.</summary>
    public static AirPace Usual { get; } = new(TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(15));

    /// <summary>For a past that is lived through quickly.</summary>
    public static AirPace Slow { get; } = new(TimeSpan.FromMinutes(10), TimeSpan.FromMinutes(60));

    /// <summary>The pace beside machines that are stepped no sooner than after a while.</summary>
    /// <param name="betweenSteps">The while.</param>
    public static AirPace For(TimeSpan betweenSteps) => betweenSteps >= Slow.Pass ? Slow : Usual;
}
