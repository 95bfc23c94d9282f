namespace ClimateGuard.Watch;

/// <summary>Notices when the wall clock was set, by the clock that nobody sets. So waits and validities run on monotonic time.</summary>
internal sealed class ClockSteps
{
    // Slewing and scheduling move the two apart by far less.
    private static readonly TimeSpan Noticeable = TimeSpan.FromSeconds(2);

    private readonly TimeProvider time;
    private DateTimeOffset wall;
    private long steady;

    public ClockSteps(TimeProvider time)
    {
        this.time = time;
        wall = time.GetUtcNow();
        steady = time.GetTimestamp();
    }

    /// <summary>How far the wall clock was set since the last look, or null.</summary>
    public TimeSpan? SteppedBy()
    {
        var now = time.GetUtcNow();
        var passed = time.GetElapsedTime(steady);
        var step = now - wall - passed;
        wall = now;
        steady = time.GetTimestamp();
        return step.Duration() >= Noticeable ? step : null;
    }
}
