using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Moves the rows of the first shape, one table of all readings, into the months, at the first start of this release.</summary>
/// <remarks>
/// A chunk is packed and then its end is noted, in one transaction of the log that keeps any other process waiting; cut off in between, the chunk
/// is packed again, which changes nothing. The table is dropped when all of it was moved.
/// </remarks>
internal sealed class HistoryMove(SqliteConnection writer, Lock writing, HistoryPacker packer, ILogger log)
{
    private const int Chunk = 200_000;

    /// <summary>Moves what is there; returns when nothing is left.</summary>
    public void Run()
    {
        var (moved, told) = (0L, Environment.TickCount64);
        while (MoveChunk() is { } count)
        {
            moved += count;
            if (Environment.TickCount64 - told > 5_000)
            {
                told = Environment.TickCount64;
                log.LogInformation("{Moved} readings of an earlier release were moved into files by the month; more follow", moved);
            }
        }

        if (moved > 0)
        {
            writer.Do("VACUUM");
            log.LogInformation("All {Moved} readings of an earlier release were moved into files by the month", moved);
        }
    }

    /// <returns>How many rows were moved, or null when the table is gone.</returns>
    private long? MoveChunk()
    {
        lock (writing)
        {
            writer.Do("BEGIN IMMEDIATE");
            try
            {
                if (writer.Ask("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'reading'") is null)
                {
                    writer.Do("COMMIT");
                    return null;
                }

                var rows = new LooseRows();
                var last = Read(rows);
                if (rows.Count == 0)
                {
                    writer.Do("DROP TABLE reading");
                }
                else
                {
                    packer.PackMonths(rows);
                    writer.Do("UPDATE moving SET sensor = $sensor, t = $t", ("$sensor", last.Sensor), ("$t", last.Time));
                }

                writer.Do("COMMIT");
                return rows.Count;
            }
            catch
            {
                writer.RollBackIfOpen();
                throw;
            }
        }
    }

    private (long Sensor, long Time) Read(LooseRows rows)
    {
        var last = (Sensor: Convert.ToInt64(writer.Ask("SELECT sensor FROM moving"), CultureInfo.InvariantCulture),
            Time: Convert.ToInt64(writer.Ask("SELECT t FROM moving"), CultureInfo.InvariantCulture));
        using var command = writer.Command(
            "SELECT sensor, t, value, raw, reason FROM reading WHERE (sensor, t) > ($sensor, $t) ORDER BY sensor, t LIMIT $most",
            ("$sensor", last.Sensor), ("$t", last.Time), ("$most", Chunk));
        using var found = command.ExecuteReader();
        while (found.Read())
        {
            last = (found.GetInt64(0), found.GetInt64(1));
            var value = found.GetDouble(2);
            rows.Add(last.Sensor, new HistoryRow(
                last.Time, value, found.IsDBNull(3) ? value : found.GetDouble(3), found.IsDBNull(4) ? (byte)0 : (byte)found.GetInt64(4)), 0);
        }

        return last;
    }
}
