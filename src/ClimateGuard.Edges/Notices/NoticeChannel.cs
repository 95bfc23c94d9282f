using System.Text.Json;
using System.Threading.Channels;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Notices;

/// <summary>A channel to people: takes alerts in, makes notices of them, keeps them in the outbox, and delivers them.</summary>
/// <remarks>
/// Telling only puts the alerts in a queue and returns; <see cref="RunAsync"/> does the rest. So neither a full disk nor a dead mail server
/// holds up the cell. A notice is in the outbox before the first try, and is marked after it was sent: at least once, always with the same key.
/// </remarks>
public sealed class NoticeChannel : IAlertChannel
{
    private const int MostQueued = 4096;
    private static readonly TimeSpan Tick = TimeSpan.FromSeconds(2);

    private readonly NoticeChannelParts parts;
    private readonly NoticeDelivery delivery;
    private readonly Channel<RankedAlert> queue = Channel.CreateBounded<RankedAlert>(MostQueued);
    private readonly List<RankedAlert> taken = [];
    private NoticeState? state;
    private readonly Lock telling = new();
    private string kept = "";
    private long lost;
    private Tuple<DateTimeOffset, string>? notNoted;

    /// <summary>Puts a channel together; nothing is read or sent before <see cref="RunAsync"/>.</summary>
    public NoticeChannel(NoticeChannelParts parts)
    {
        this.parts = parts ?? throw new ArgumentNullException(nameof(parts));
        delivery = new NoticeDelivery(parts);
    }

    /// <inheritdoc/>
    public string Name => parts.Name;

    /// <inheritdoc/>
    public ValueTask TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation)
    {
        lock (telling)
        {
            foreach (var alert in parts.Priorities.Rank(decisions))
            {
                if (!queue.Writer.TryWrite(alert))
                {
                    Interlocked.Increment(ref lost);
                }
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>How the channel stands. May be asked at any time from any thread.</summary>
    public ChannelHealth Health()
    {
        var (failingSince, lastError) = Volatile.Read(ref notNoted) is { } failed ? (failed.Item1, failed.Item2) : delivery.Failing;
        var gone = Interlocked.Read(ref lost);
        try
        {
            var counts = parts.Outbox.Counts(Name);
            return new(Name, delivery.Delivered, counts.Waiting, counts.OldestWaiting, counts.Dead, failingSince, lastError, gone);
        }
        catch (StoreUnavailableException unavailable)
        {
            return new(Name, delivery.Delivered, 0, null, 0, failingSince ?? parts.WallTime.GetUtcNow(), unavailable.Message, gone);
        }
    }

    /// <summary>Makes notices and delivers them until it is cancelled; its own failures are logged and tried again.</summary>
    /// <param name="cancellation">Ends it.</param>
    public async Task RunAsync(CancellationToken cancellation)
    {
        // Another worker may have kept the outbox since this one ran last.
        state = null;
        var delivering = delivery.RunAsync(cancellation);
        while (!cancellation.IsCancellationRequested)
        {
            try
            {
                Note();
                Volatile.Write(ref notNoted, null);
                await NextAsync(cancellation);
            }
            catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
            {
                break;
            }
            catch (Exception failure)
            {
                NotNoted(failure.Message);
                await Task.Delay(Tick, parts.WallTime, cancellation).ContinueWith(static _ => { }, TaskScheduler.Default);
            }
        }

        await delivering;
    }

    /// <summary>Makes notices of what was told so far and of the passing of time, and keeps them.</summary>
    /// <exception cref="StoreUnavailableException">They could not be kept; what was told is tried again with the next call.</exception>
    public void Note()
    {
        state ??= Remembered();
        while (taken.Count < MostQueued && queue.Reader.TryRead(out var alert))
        {
            taken.Add(alert);
        }

        var (next, notices) = parts.Policy.Step(state, taken, parts.CellTime.GetUtcNow());
        var memory = NoticeJson.Of(next with { At = default });
        if (notices.Count > 0 || memory != kept)
        {
            parts.Outbox.Keep(
                Name, NoticeJson.Of(next), [.. notices.Select(notice => (notice.Key, NoticeJson.Of(notice)))], parts.WallTime.GetUtcNow());
            kept = memory;
        }

        state = next;
        taken.Clear();
        if (notices.Count > 0)
        {
            delivery.Wake();
        }
    }

    /// <summary>Delivers what is due, once.</summary>
    public Task DeliverAsync(CancellationToken cancellation) => delivery.RoundAsync(cancellation);

    private async Task NextAsync(CancellationToken cancellation)
    {
        using var pause = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        var waiting = Task.Delay(Tick, parts.WallTime, pause.Token);
        await Task.WhenAny(waiting, queue.Reader.WaitToReadAsync(pause.Token).AsTask());
        await pause.CancelAsync();
        cancellation.ThrowIfCancellationRequested();
    }

    private void NotNoted(string reason)
    {
        if (Volatile.Read(ref notNoted) is null)
        {
            Volatile.Write(ref notNoted, Tuple.Create(parts.WallTime.GetUtcNow(), reason));
            parts.Logger.LogError("{Channel} cannot make its messages: {Reason} The alerts wait and are tried again.", Name, reason);
        }
    }

    private NoticeState Remembered()
    {
        if (parts.Outbox.MemoryOf(Name) is not { } json)
        {
            return new NoticeState();
        }

        try
        {
            return NoticeJson.StateFrom(json);
        }
        catch (JsonException unreadable)
        {
            parts.Logger.LogError(
                "What {Channel} remembers of open notices cannot be read ({Reason}). It begins anew: open causes may be told a second time.",
                Name, unreadable.Message);
            return new NoticeState();
        }
    }
}
