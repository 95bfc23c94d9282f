namespace ClimateGuard.Watch;

/// <summary>Whether there is a flood of alarms, and for how long there was: more than 10 in 10 minutes until fewer than 5 in 10 minutes.</summary>
/// <remarks>
/// The 10 minutes slide: a flood that lies across two fixed periods is one too. Begin and end are exact to the activation; a flood ends at the
/// moment when old activations leave the window, not when someone next asks. The window is (t − 10 min, t].
/// </remarks>
internal sealed class FloodWatch
{
    private static readonly TimeSpan TenMinutes = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);

    private readonly LinkedList<(DateTimeOffset Time, long Count)> tenMinutes = [];
    private readonly LinkedList<(DateTimeOffset Time, long Count)> hour = [];
    private readonly List<(DateTimeOffset Begin, DateTimeOffset End)> past = [];
    private DateTimeOffset? begin;

    public long InTenMinutes { get; private set; }

    public long InAnHour { get; private set; }

    public bool InFlood => begin is not null;

    public int Floods => past.Count + (InFlood ? 1 : 0);

    /// <summary>The time in flood between two moments.</summary>
    public TimeSpan Between(DateTimeOffset from, DateTimeOffset to)
    {
        var ticks = past.Sum(flood => Overlap(flood.Begin, flood.End, from, to));
        return TimeSpan.FromTicks(ticks + (begin is { } since ? Overlap(since, to, from, to) : 0));
    }

    public void Count(DateTimeOffset at)
    {
        Advance(at);
        Append(tenMinutes, at);
        Append(hour, at);
        InTenMinutes++;
        InAnHour++;
        begin ??= InTenMinutes > AlarmLimits.FloodBeginsAbove ? at : null;
    }

    public void Advance(DateTimeOffset now)
    {
        while (tenMinutes.First is { } oldest && oldest.Value.Time + TenMinutes <= now)
        {
            InTenMinutes -= oldest.Value.Count;
            tenMinutes.RemoveFirst();
            if (begin is { } since && InTenMinutes < AlarmLimits.FloodEndsBelow)
            {
                past.Add((since, oldest.Value.Time + TenMinutes));
                begin = null;
            }
        }

        while (hour.First is { } oldest && oldest.Value.Time + Hour <= now)
        {
            InAnHour -= oldest.Value.Count;
            hour.RemoveFirst();
        }
    }

    public void Forget(DateTimeOffset before) => past.RemoveAll(flood => flood.End <= before);

    private static void Append(LinkedList<(DateTimeOffset Time, long Count)> list, DateTimeOffset at)
    {
        // In a storm the activations of one second are kept as one entry, so that the memory stays bounded.
        const int Storm = 10_000;
        if (list.Last is { } last && (last.Value.Time == at || (list.Count > Storm && at - last.Value.Time < TimeSpan.FromSeconds(1))))
        {
            last.Value = (last.Value.Time, last.Value.Count + 1);
        }
        else
        {
            list.AddLast((at, 1));
        }
    }

    private static long Overlap(DateTimeOffset begin, DateTimeOffset end, DateTimeOffset from, DateTimeOffset to) =>
        Math.Max(0, Math.Min(end.UtcTicks, to.UtcTicks) - Math.Max(begin.UtcTicks, from.UtcTicks));
}
