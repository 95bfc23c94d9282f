namespace ClimateGuard.Watch;

/// <summary>Arrivals a second over the last ten seconds.</summary>
internal sealed class ArrivalRate
{
    private static readonly TimeSpan Window = TimeSpan.FromSeconds(10);

    private DateTimeOffset begin;
    private long count;

    public double PerSecond { get; private set; }

    public void Count(int arrivals, DateTimeOffset now)
    {
        count += arrivals;
        if (begin == default)
        {
            begin = now;
        }

        if (now - begin >= Window)
        {
            PerSecond = count / (now - begin).TotalSeconds;
            begin = now;
            count = 0;
        }
    }
}
