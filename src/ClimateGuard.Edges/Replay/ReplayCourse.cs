using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Replay;

/// <summary>Goes through readings and events in event time: a step at each event, at each tick and where so much came that it must be taken in.</summary>
/// <param name="input">Readings and events.</param>
/// <param name="every">Between two ticks.</param>
internal sealed class ReplayCourse(ReplayInput input, TimeSpan every)
{
    private readonly MergedRuns rows = input.InOrder();
    private bool more;

    /// <summary>Takes a reading; the return says whether no further one has room before a step.</summary>
    public delegate bool Taking(in Reading reading, bool live);

    /// <summary>Goes to the end, or until it is stopped.</summary>
    /// <param name="take">Takes a reading.</param>
    /// <param name="step">Steps up to a moment, with what happened at it or null.</param>
    /// <param name="afterTick">Told of each tick after its step.</param>
    /// <param name="cancellation">Stops after a tick.</param>
    /// <returns>The last tick.</returns>
    public DateTimeOffset Run(Taking take, Action<DateTimeOffset, CellEvent?> step, Action<DateTimeOffset> afterTick, CancellationToken cancellation)
    {
        more = rows.MoveNext();
        var (next, moment) = (0, input.Start);
        while ((more || next < input.Events.Count) && !cancellation.IsCancellationRequested)
        {
            moment += every;
            for (; next < input.Events.Count && input.Events[next].Time <= moment; next++)
            {
                TakeUntil(input.Events[next].Time, take, step);
                step(input.Events[next].Time, input.Events[next]);
            }

            TakeUntil(moment, take, step);
            step(moment, null);
            afterTick(moment);
        }

        return moment;
    }

    private void TakeUntil(DateTimeOffset until, Taking take, Action<DateTimeOffset, CellEvent?> step)
    {
        var end = until.ToUnixTimeMilliseconds();
        while (more && rows.Current.Time <= end)
        {
            var row = rows.Current;
            more = rows.MoveNext();
            if (take(new Reading(row.Sensor, row.Time, row.Value), row.Live))
            {
                step(DateTimeOffset.FromUnixTimeMilliseconds(row.Time), null);
            }
        }
    }
}
