using System.Threading.Channels;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The work of one round of the loop; its buffers are used again in the next.</summary>
internal sealed class LoopBatch(int most)
{
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

    public void Fill(ChannelReader<Arrival> source, ChannelReader<PostedEvent> waiting)
    {
        Clear();
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

    /// <summary>Begins anew with these events alone, which came from the ledger and are acknowledged already.</summary>
    public void Begin(params ReadOnlySpan<CellEvent> happened)
    {
        Clear();
        foreach (var one in happened)
        {
            work.Add(new EventWork(one, null));
        }
    }

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
