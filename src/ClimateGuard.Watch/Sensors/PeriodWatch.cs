using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Finds the period at which a sensor really reports: the median of its last five intervals.</summary>
internal sealed class PeriodWatch(Sensor sensor)
{
    private const int Intervals = 5;
    private const double Factor = 2;

    private readonly double[] intervals = new double[Intervals];
    private int count;
    private int next;
    private long last;

    /// <summary>The period to reckon with: as stated, or as seen when it is twice as long or half as long.</summary>
    public TimeSpan Period { get; private set; } = sensor.Period;

    /// <summary>Whether it reports at another period than stated.</summary>
    public bool IsChanged => Period != sensor.Period;

    /// <summary>Takes the event time of the newest reading.</summary>
    /// <param name="at">In ms.</param>
    public void Take(long at)
    {
        if (sensor.ReportsOnChange)
        {
            return;
        }

        if (last != 0 && at > last)
        {
            intervals[next] = at - last;
            next = (next + 1) % Intervals;
            count = Math.Min(count + 1, Intervals);
            Look();
        }

        last = at;
    }

    private void Look()
    {
        if (count < Intervals)
        {
            return;
        }

        var seen = HampelFilter.Median(intervals);
        var stated = sensor.Period.TotalMilliseconds;
        Period = seen >= Factor * stated || seen <= stated / Factor ? TimeSpan.FromMilliseconds(seen) : sensor.Period;
    }
}
