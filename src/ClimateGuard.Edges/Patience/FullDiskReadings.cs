using System.Text.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Patience;

/// <summary>A store of readings that lets readings go when the disk is full, so that decisions and the ledger go on.</summary>
/// <remarks>
/// The one exception to "no row, no acknowledgement": what comes in meanwhile is judged and used, but not kept, and the messages are
/// acknowledged. How many and of which time stands in the ledger when it begins and when it ends. Nothing else that fails is let go here. For one
/// caller at a time; what is asked of it may be asked from any thread.
/// </remarks>
/// <param name="inner">The store.</param>
/// <param name="space">The disk.</param>
/// <param name="ledger">Where begin and end are kept.</param>
/// <param name="cellTime">The clock of the cell, for the lines.</param>
/// <param name="clock">Its monotonic time says when to try again.</param>
/// <param name="log">The log.</param>
public sealed class FullDiskReadings(
    IReadingStore inner, DiskSpace space, ILedgerStore ledger, TimeProvider cellTime, TimeProvider clock, ILogger log) : IReadingStore
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(5);

    private HistoryGap? gap;
    private long triedAt;
    private long notKept;

    /// <summary>Readings and unreadable messages not kept since the start.</summary>
    public long NotKept => Interlocked.Read(ref notKept);

    /// <summary>What is not being kept now, or null while everything is.</summary>
    public HistoryGap? Gap => Volatile.Read(ref gap);

    /// <inheritdoc/>
    public async ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation)
    {
        if (MayTry() && await TryAsync(store => store.AppendAsync(batch, cancellation), cancellation))
        {
            return;
        }

        await BeginAsync(cancellation);
        Count(batch.Span);
    }

    /// <inheritdoc/>
    public async ValueTask KeepUnreadableAsync(
        IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(messages);
        if (MayTry() && await TryAsync(store => store.KeepUnreadableAsync(messages, cancellation), cancellation))
        {
            return;
        }

        await BeginAsync(cancellation);
        Volatile.Write(ref gap, gap! with { Unreadable = gap!.Unreadable + messages.Count });
        Interlocked.Add(ref notKept, messages.Count);
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation) =>
        inner.ReadAsync(sensorId, from, to, points, cancellation);

    /// <inheritdoc/>
    public IAsyncEnumerable<StoredReading> RowsAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation) =>
        inner.RowsAsync(sensorId, from, to, cancellation);

    private bool MayTry() => space.AllowsReadings && (gap is null || clock.GetElapsedTime(triedAt) >= Pause);

    private async ValueTask<bool> TryAsync(Func<IReadingStore, ValueTask> write, CancellationToken cancellation)
    {
        try
        {
            triedAt = clock.GetTimestamp();
            await write(inner);
        }
        catch (StoreUnavailableException full) when (full.DiskFull)
        {
            return false;
        }

        if (gap is { } ended)
        {
            await LineAsync("ended", ended, cancellation);
            Volatile.Write(ref gap, null);
            log.LogWarning("Readings are kept again. Since {Since:u}, {Readings} readings were judged and not kept for want of space", ended.Since, ended.Readings);
        }

        return true;
    }

    private async ValueTask BeginAsync(CancellationToken cancellation)
    {
        if (gap is not null)
        {
            return;
        }

        var begun = new HistoryGap(cellTime.GetUtcNow(), 0, 0, null, null);
        await LineAsync("begun", begun, cancellation);
        Volatile.Write(ref gap, begun);
        log.LogError(
            "The disk is full or has no more than the reserve of the ledger (Storage:ReserveMegabytes): readings are judged and used, but no longer kept. "
            + "Decisions and the ledger go on. Free some space; keeping goes on by itself");
    }

    private void Count(ReadOnlySpan<TrustedReading> batch)
    {
        var (first, last) = (gap!.First ?? long.MaxValue, gap.Last ?? long.MinValue);
        foreach (ref readonly var reading in batch)
        {
            first = Math.Min(first, reading.Raw.EpochMilliseconds);
            last = Math.Max(last, reading.Raw.EpochMilliseconds);
        }

        if (batch.Length > 0)
        {
            Volatile.Write(ref gap, gap with { Readings = gap.Readings + batch.Length, First = first, Last = last });
            Interlocked.Add(ref notKept, batch.Length);
        }
    }

    private ValueTask LineAsync(string state, HistoryGap of, CancellationToken cancellation)
    {
        var content = JsonSerializer.Serialize(
            new
            {
                state,
                since = of.Since,
                readings = of.Readings,
                unreadable = of.Unreadable,
                first = of.First is { } first ? DateTimeOffset.FromUnixTimeMilliseconds(first) : (DateTimeOffset?)null,
                last = of.Last is { } last ? DateTimeOffset.FromUnixTimeMilliseconds(last) : (DateTimeOffset?)null,
            },
            JsonSerializerOptions.Web);
        return ledger.AppendAsync([new LedgerLine(cellTime.GetUtcNow(), LedgerKinds.HistoryGap, null, content)], cancellation);
    }
}

/// <summary>What is not being kept for want of space.</summary>
/// <param name="Since">Since when, by the clock of the cell.</param>
/// <param name="Readings">How many readings.</param>
/// <param name="Unreadable">How many unreadable messages.</param>
/// <param name="First">Event time of the earliest of the readings, in ms since 1970, or null.</param>
/// <param name="Last">Event time of the latest, or null.</param>
public sealed record HistoryGap(DateTimeOffset Since, long Readings, long Unreadable, long? First, long? Last);
