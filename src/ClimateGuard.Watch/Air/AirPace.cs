namespace ClimateGuard.Watch;

/// <summary>How often the air is judged, by event time.</summary>
/// <param name="Pass">From one pass to the next; quick causes, excursions and regimes are looked at in each.</param>
/// <param name="Judge">From one judgement of an air handler over a day to its next; a multiple of <paramref name="Pass"/>.</param>
public sealed record AirPace(TimeSpan Pass, TimeSpan Judge)
{
    /// <summary>Every five minutes; each air handler every quarter of an hour.</summary>
    public static AirPace Usual { get; } = new(TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(15));

    /// <summary>For a past that is lived through quickly.</summary>
    public static AirPace Slow { get; } = new(TimeSpan.FromMinutes(10), TimeSpan.FromMinutes(60));

    /// <summary>Whether an air handler is judged over a day in the pass of a moment: they take turns by the clock, so a restart moves none.</summary>
    /// <param name="place">Its place in the plant file.</param>
    /// <param name="moment">The moment.</param>
    public bool IsTurnOf(int place, DateTimeOffset moment)
    {
        var turns = Math.Max(1, Judge.Ticks / Pass.Ticks);
        return moment.UtcTicks / Pass.Ticks % turns == place % turns;
    }

    /// <summary>The pace beside machines that are stepped no sooner than after a while.</summary>
    /// <param name="betweenSteps">The while.</param>
    public static AirPace For(TimeSpan betweenSteps) => betweenSteps >= Slow.Pass ? Slow : Usual;
}
