using System.Threading.Channels;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The work of one round of the loop; its buffers are used again in the next.</summary>
internal sealed class LoopBatch(int most)
{
    // A cell that sends little commits after one slice, because nothing more came in it.
    private const int GatherSlices = 5;

    private readonly Arrival[] arrivals = new Arrival[most];
    private readonly TrustedReading[] judged = new TrustedReading[most];
    private readonly List<EventWork> work = [];
    private readonly List<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> unreadable = [];
    private readonly List<PostedEvent> posted = [];
    private int arrivalCount;
    private int judgedCount;

    /// <summary>Everything that came from the source, in order of arrival.</summary>
    public ReadOnlyMemory<Arrival> Arrivals => arrivals.AsMemory(0, arrivalCount);

    /// <summary>The readings with the judgement on them.</summary>
    public ReadOnlyMemory<TrustedReading> Judged => judged.AsMemory(0, judgedCount);

    /// <summary>The events, from the source and posted.</summary>
    public IReadOnlyList<EventWork> Work => work;

    /// <summary>The messages that could not be read.</summary>
    public IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> Unreadable => unreadable;

    /// <summary>Takes what is there, and gathers for the next commit: an event does not wait, a full batch does not, readings alone a little.</summary>
    /// <param name="source">What the source has decoded.</param>
    /// <param name="waiting">What was posted.</param>
    /// <param name="gather">How long readings alone may wait for more to be committed with them; zero for not at all.</param>
    /// <param name="time">The clock.</param>
    /// <param name="cancellation">Ends the waiting.</param>
    public async ValueTask FillAsync(
        ChannelReader<Arrival> source, ChannelReader<PostedEvent> waiting, TimeSpan gather, TimeProvider time, CancellationToken cancellation)
    {
        Clear();
        Take(source, waiting);
        var before = 0;
        for (var slice = 0; slice < GatherSlices && gather > TimeSpan.Zero && MayWait && arrivalCount > before; slice++)
        {
            before = arrivalCount;
            await Task.Delay(gather / GatherSlices, time, cancellation);
            Take(source, waiting);
        }
    }

    /// <summary>Begins anew with these events alone, which came from the ledger and are acknowledged already.</summary>
    public void Begin(params ReadOnlySpan<CellEvent> happened)
    {
        Clear();
        foreach (var one in happened)
        {
            work.Add(new EventWork(one, null));
        }
    }

    /// <summary>A reading of a sensor that is not there any more: kept like what cannot be read, and acknowledged with its round.</summary>
    public void Keep(DateTimeOffset arrivedAt, UnreadableMessage message) => unreadable.Add((arrivedAt, message));

    /// <summary>Whether no further arrival has room.</summary>
    public bool Full => arrivalCount == arrivals.Length;

    /// <summary>Adds a reading that came from a file.</summary>
    public void Take(in Arrival arrival) => arrivals[arrivalCount++] = arrival;

    /// <summary>Adds an event that came from a file.</summary>
    public void Take(CellEvent happened) => work.Add(new EventWork(happened, null));

    public void Add(in TrustedReading reading) => judged[judgedCount++] = reading;

    public void CompletePosted()
    {
        foreach (var one in posted)
        {
            one.Complete();
        }
    }

    private bool MayWait => work.Count == 0 && arrivalCount < arrivals.Length;

    private void Take(ChannelReader<Arrival> source, ChannelReader<PostedEvent> waiting)
    {
        while (arrivalCount < arrivals.Length && source.TryRead(out var arrival))
        {
            arrivals[arrivalCount++] = arrival;
            if (arrival.Event is not null)
            {
                work.Add(new EventWork(arrival.Event, null));
            }
            else if (arrival.Unreadable is not null)
            {
                unreadable.Add((arrival.ArrivedAt, arrival.Unreadable));
            }
        }

        while (posted.Count < 256 && waiting.TryRead(out var one))
        {
            posted.Add(one);
            work.Add(new EventWork(one.Happened, one));
        }
    }

    private void Clear()
    {
        Array.Clear(arrivals, 0, arrivalCount);
        arrivalCount = 0;
        judgedCount = 0;
        work.Clear();
        unreadable.Clear();
        posted.Clear();
    }
}
