namespace ClimateGuard.Watch;

/// <summary>When a computed level becomes the level that is shown: delays upwards, hysteresis and dwell downwards.</summary>
/// <remarks>
/// Upwards by the clock: measure first after it was due for 60 s, hold after 120 s, so that a gust does not raise an alarm; a job, a
/// measurement and a request count at once. Downwards: a hold ends when its release conditions are met and it stood five minutes, or when a
/// measurement clears it; measure first ends below its own release limit. Immutable; pure.
/// </remarks>
public sealed record LevelTiming
{
    /// <summary>How long measure first must be due before it is shown.</summary>
    public static readonly TimeSpan MeasureDelay = TimeSpan.FromSeconds(60);

    /// <summary>How long hold must be due before it is shown.</summary>
    public static readonly TimeSpan HoldDelay = TimeSpan.FromSeconds(120);

    /// <summary>How long a hold stands at least.</summary>
    public static readonly TimeSpan HoldDwell = TimeSpan.FromMinutes(5);

    /// <summary>Nothing shown yet.</summary>
    public static LevelTiming Begin { get; } = new();

    /// <summary>The level shown.</summary>
    public Level Shown { get; init; } = Level.NoJob;

    /// <summary>Since when it is shown.</summary>
    public DateTimeOffset Since { get; init; }

    /// <summary>Since when measure first or worse is due, or null.</summary>
    public DateTimeOffset? MeasureDueSince { get; init; }

    /// <summary>Since when hold is due, or null.</summary>
    public DateTimeOffset? HoldDueSince { get; init; }

    /// <summary>The next timing.</summary>
    /// <param name="computed">The level as computed now, without any timing.</param>
    /// <param name="releaseHold">Whether the conditions to end a hold are met.</param>
    /// <param name="releaseMeasure">Whether the conditions to end a measure first are met.</param>
    /// <param name="now">The moment.</param>
    /// <param name="cause">What led to the computation.</param>
    public LevelTiming Next(Level computed, bool releaseHold, bool releaseMeasure, DateTimeOffset now, TimingCause cause)
    {
        var next = this with
        {
            MeasureDueSince = computed is Level.MeasureFirst or Level.Hold ? MeasureDueSince ?? now : null,
            HoldDueSince = computed == Level.Hold ? HoldDueSince ?? now : null,
        };
        var shown = next.ShownFor(computed, releaseHold, releaseMeasure, now, cause);
        return shown == Shown ? next : next with { Shown = shown, Since = now };
    }

    private Level ShownFor(Level computed, bool releaseHold, bool releaseMeasure, DateTimeOffset now, TimingCause cause)
    {
        if (cause is TimingCause.Asked or TimingCause.Measured || !IsGraded(computed) || !IsGraded(Shown))
        {
            return computed;
        }

        if (Shown == Level.Hold && computed != Level.Hold)
        {
            return releaseHold && now - Since >= HoldDwell ? computed : Level.Hold;
        }

        if (Shown == Level.MeasureFirst && computed is Level.Ready or Level.Watch)
        {
            return releaseMeasure ? computed : Level.MeasureFirst;
        }

        if (computed == Level.Hold && now - HoldDueSince >= HoldDelay)
        {
            return Level.Hold;
        }

        if (computed is Level.Hold or Level.MeasureFirst && now - MeasureDueSince >= MeasureDelay)
        {
            return Shown == Level.Hold ? Level.Hold : Level.MeasureFirst;
        }

        return computed is Level.Ready or Level.Watch ? computed : Shown;
    }

    private static bool IsGraded(Level level) => level is Level.Ready or Level.Watch or Level.MeasureFirst or Level.Hold;
}

/// <summary>What led to a computation of a level.</summary>
public enum TimingCause
{
    /// <summary>The clock.</summary>
    Tick,

    /// <summary>Something happened at the machine; looked at anew, but shown with the delays of the clock.</summary>
    Happened,

    /// <summary>A job or a request: counts at once.</summary>
    Asked,

    /// <summary>A measurement: counts at once, and clears at once.</summary>
    Measured,
}
