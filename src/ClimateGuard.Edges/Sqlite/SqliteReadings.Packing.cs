using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>How what comes in gets into the log, and from there into the months.</summary>
public sealed partial class SqliteReadings
{
    /// <summary>Packs what is loose now, instead of within the hour.</summary>
    /// <param name="cancellation">Stops waiting for the begin.</param>
    /// <exception cref="StoreUnavailableException">It could not be written; everything is still in the log.</exception>
    public Task PackAsync(CancellationToken cancellation) => Task.Run(
        () =>
        {
            try
            {
                packer.Pack();
                packer.Pack();
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "pack the history", file.Path, "Everything is still there, not packed.");
            }
        },
        cancellation);

    private long Monotonic => clock.GetTimestamp() * 1_000 / clock.TimestampFrequency;

    private void Begin(Cell cell)
    {
        TakeNamesFromMonths();
        UseCell(cell);
        using var looseLog = new LooseLog(file.Writer, memory, segments);
        if (segments.Months is [.., var newest])
        {
            newestCheck = segments.Check(newest, storage.CheckAtMost);
        }

        looseLog.Read(Tally("logged"), Tally("packed"), Monotonic);
        new HistoryMove(file.Writer, writing, packer, log).Run();
        looseLog.Read(Tally("logged"), Tally("packed"), Monotonic);
    }

    /// <summary>A new <c>readings.db</c> beside older months, as after damage, must give each name the number it has there.</summary>
    private void TakeNamesFromMonths()
    {
        if (!file.Opening.Created)
        {
            return;
        }

        foreach (var month in segments.Months.Reverse())
        {
            segments.TryRead(month, reader =>
            {
                foreach (var table in (ReadOnlySpan<string>)["sensor", "reason"])
                {
                    foreach (var (id, name) in NameTable.Names(reader, table))
                    {
                        file.Writer.Do($"INSERT OR IGNORE INTO {table}(id, name) VALUES($id, $name)", ("$id", id), ("$name", name));
                    }
                }
            });
        }
    }

    private HistoryReader History(SqliteConnection reader, string sensorId, CancellationToken cancellation)
    {
        var sensor = SeriesReader.SensorRow(reader, sensorId);
        using var looseLog = new LooseLog(reader, memory, segments);
        looseLog.Follow(Monotonic);
        return new HistoryReader(segments, memory, sensor, cancellation);
    }

    private ValueTask AppendNow(ReadOnlyMemory<TrustedReading> batch)
    {
        lock (writing)
        {
            try
            {
                var now = clock.GetUtcNow();
                var (rows, quarantined) = writer.Append(batch.Span, now.ToUnixTimeMilliseconds(), Monotonic);
                health = health with { Rows = health.Rows + rows, Quarantined = health.Quarantined + quarantined, LastCommit = now };
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "write the history", file.Path, Unwritten);
            }
        }

        PackIfDue();
        return ValueTask.CompletedTask;
    }

    private async ValueTask AppendAfterAsync(Task behind, ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation)
    {
        await Task.WhenAny(behind).WaitAsync(cancellation);
        await AppendNow(batch);
    }

    /// <summary>The packing to wait for when twice as much is loose as should be, else nothing.</summary>
    private Task? WaitForPacking() => memory.Coming.Count >= 2 * storage.LooseReadings ? packing : null;

    private void PackIfDue()
    {
        var due = memory.Coming is { Since: { } since } coming
            && (coming.Count >= storage.LooseReadings || Monotonic - since >= storage.LooseAtMost.TotalMilliseconds);
        if (due && packing.IsCompleted && Monotonic >= packAgainAt)
        {
            packing = Task.Run(PackOrSay);
        }
    }

    private void PackOrSay()
    {
        try
        {
            packer.Pack();
        }
        catch (Exception fault) when (fault is SqliteException or IOException or UnauthorizedAccessException)
        {
            // Everything is still in the log; the next batch tries again, a while later.
            packAgainAt = Monotonic + 30_000;
            log.LogError("The history could not be packed: {Reason} Nothing is lost: it stays in {Path} and is tried again", fault.Message, file.Path);
        }
    }
}
