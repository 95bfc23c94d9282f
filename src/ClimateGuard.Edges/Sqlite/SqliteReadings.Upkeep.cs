using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>What is done beside the readings that come in: checking, clearing what is too old, pinning what must stay.</summary>
public sealed partial class SqliteReadings
{
    /// <summary>Checks the months that were not checked at the start, newest first; a damaged one is set aside and the others go on.</summary>
    /// <param name="cancellation">Stops between two months.</param>
    public Task CheckOlderAsync(CancellationToken cancellation) => Task.Run(
        () =>
        {
            var months = segments.Months;
            foreach (var month in newestCheck == StoreCheck.Partial ? months.Reverse() : months.SkipLast(1).Reverse())
            {
                cancellation.ThrowIfCancellationRequested();
                lock (packer.Packing)
                {
                    segments.Check(month, TimeSpan.FromHours(1));
                }
            }

            log.LogInformation("All {Months} months of the history were checked; {Damaged} were set aside since the start", months.Count, segments.Damaged.Count);
        },
        cancellation);

    /// <summary>Keeps all levels of a window for ever, such as the hours of a serial that a verdict rests on.</summary>
    /// <param name="from">Begin, inclusive.</param>
    /// <param name="to">End, exclusive.</param>
    /// <param name="why">Why, such as the serial; 1 to 200 characters.</param>
    /// <exception cref="ArgumentException">The window does not begin before it ends, or the reason is empty or too long.</exception>
    /// <exception cref="StoreUnavailableException">It could not be written.</exception>
    public void Pin(DateTimeOffset from, DateTimeOffset to, string why)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(why);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(why.Length, 200, nameof(why));
        var window = SeriesReader.Window.Between(from, to);
        Write(() => file.Writer.Do(
            "INSERT INTO pin(t0, t1, why) VALUES($from, $to, $why)", ("$from", window.From), ("$to", window.To), ("$why", why)));
    }

    /// <summary>Clears what is older than it is kept for: whole months, but nothing that is pinned.</summary>
    /// <param name="cancellation">Stops between two months.</param>
    /// <exception cref="StoreUnavailableException">It could not be written; it is done again the next time.</exception>
    public Task ClearAsync(CancellationToken cancellation) => Task.Run(
        () =>
        {
            var now = clock.GetUtcNow();
            foreach (var month in segments.Months)
            {
                cancellation.ThrowIfCancellationRequested();
                if (LevelsDue(month, now) is > 0 and var due)
                {
                    Clear(month, due);
                }
            }

            ClearSetAside(now);
        },
        cancellation);

    private int LevelsDue(SegmentMonth month, DateTimeOffset now)
    {
        var due = 0;
        foreach (var level in Enum.GetValues<HistoryLevel>())
        {
            if (storage.Retention.DaysOf(level) is not { } days || month.End > now.AddDays(-days).ToUnixTimeMilliseconds())
            {
                break;
            }

            due++;
        }

        return due;
    }

    private void Clear(SegmentMonth month, int due)
    {
        lock (memory.Gate)
        {
            memory.RawFloor = Math.Max(memory.RawFloor, month.End);
        }

        lock (writing)
        {
            // The batch that was being written when the floor rose is done: nothing of this month comes in any more.
        }

        try
        {
            packer.Pack();
            packer.Pack();
            lock (packer.Packing)
            {
                using var open = segments.OpenWriter(month);
                if (SegmentClearing.Clear(open.Writer, due, Pins()) is { } cleared)
                {
                    Forgotten(cleared.Rows);
                    log.LogInformation(
                        "{Path}: {Rows} raw readings and {Blocks} blocks are older than they are kept for and were cleared", open.Path, cleared.Rows, cleared.Blocks);
                    if (cleared.IsEmpty)
                    {
                        open.Dispose();
                        segments.Remove(month);
                    }
                }
            }
        }
        catch (SqliteException fault)
        {
            throw SqliteFault.Explain(fault, "clear the history", segments.PathOf(month), "What was not cleared is still there.");
        }
    }

    private List<SeriesReader.Window> Pins()
    {
        lock (writing)
        {
            using var command = file.Writer.Command("SELECT t0, t1 FROM pin");
            using var rows = command.ExecuteReader();
            var found = new List<SeriesReader.Window>();
            while (rows.Read())
            {
                found.Add(new SeriesReader.Window(rows.GetInt64(0), rows.GetInt64(1)));
            }

            return found;
        }
    }

    private void Forgotten(long rows) => Write(() =>
    {
        file.Writer.Do("UPDATE tally SET readings = max(0, readings - $rows)", ("$rows", rows));
        health = health with { Rows = Math.Max(0, health.Rows - rows) };
    });

    private void ClearSetAside(DateTimeOffset now) => Write(() =>
    {
        using var transaction = file.Writer.BeginTransaction(deferred: false);
        using var delete = file.Writer.Command(
            "DELETE FROM quarantine WHERE arrived < $before AND NOT EXISTS(SELECT 1 FROM pin WHERE quarantine.t >= t0 AND quarantine.t < t1)",
            ("$before", now.AddDays(-storage.Retention.RawDays).ToUnixTimeMilliseconds()));
        var gone = delete.ExecuteNonQuery();
        file.Writer.Do(
            "DELETE FROM stamp WHERE t < $before AND NOT EXISTS(SELECT 1 FROM pin WHERE stamp.t >= t0 AND stamp.t < t1)",
            ("$before", now.AddDays(-storage.Retention.RawDays).ToUnixTimeMilliseconds()));
        file.Writer.Do("UPDATE tally SET quarantined = max(0, quarantined - $gone)", ("$gone", gone));
        transaction.Commit();
        health = health with { Quarantined = Math.Max(0, health.Quarantined - gone) };
    });
}
