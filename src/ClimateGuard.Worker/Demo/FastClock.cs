namespace ClimateGuard.Worker.Demo;

/// <summary>A clock that begins at a moment of the virtual cell and runs faster than the wall clock.</summary>
internal sealed class FastClock(DateTimeOffset start, double speed) : TimeProvider
{
    private readonly long begin = System.GetTimestamp();

    public double Speed => speed;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override DateTimeOffset GetUtcNow() => start + Elapsed;

    public override long GetTimestamp() => Elapsed.Ticks;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        System.CreateTimer(callback, state, Slowed(dueTime), Slowed(period));

    private TimeSpan Elapsed => System.GetElapsedTime(begin) * speed;

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
