namespace ClimateGuard.Worker.Demo;

/// <summary>A clock that begins at a moment of the virtual cell and runs faster than the wall clock.</summary>
internal sealed class FastClock(DateTimeOffset start, double speed) : TimeProvider
{
    private long begin = long.MaxValue;

    public double Speed => speed;

    /// <summary>From now on it runs; until then it stands at its beginning.</summary>
    public void Begin() => Interlocked.Exchange(ref begin, System.GetTimestamp());

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override DateTimeOffset GetUtcNow() => start + Elapsed;

    public override long GetTimestamp() => Elapsed.Ticks;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        System.CreateTimer(callback, state, Slowed(dueTime), Slowed(period));

    private TimeSpan Elapsed => Interlocked.Read(ref begin) is var began && began == long.MaxValue ? TimeSpan.Zero : System.GetElapsedTime(began) * speed;

    private TimeSpan Slowed(TimeSpan time)
    {
        if (time == Timeout.InfiniteTimeSpan || time == TimeSpan.Zero)
        {
            return time;
        }

        var real = time / speed;
        return real < TimeSpan.FromMilliseconds(1) ? TimeSpan.FromMilliseconds(1) : real;
    }
}
