using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Takes the finest levels out of a month and gives their room back to the disk.</summary>
internal static class SegmentClearing
{
    /// <summary>Clears so many levels, counted from raw, less what is pinned.</summary>
    /// <returns>What went, or null when it was cleared before.</returns>
    public static (long Rows, long Blocks, bool IsEmpty)? Clear(SqliteConnection month, int levels, IReadOnlyList<SeriesReader.Window> pins)
    {
        if ((long)month.Ask("SELECT gone FROM fact")! >= levels)
        {
            return null;
        }

        var (rows, ids) = Due(month, levels, pins);
        using (var transaction = month.BeginTransaction(deferred: false))
        {
            using var delete = month.Command("DELETE FROM block WHERE id = $id", ("$id", 0L));
            foreach (var id in ids)
            {
                delete.Parameters[0].Value = id;
                delete.ExecuteNonQuery();
            }

            month.Do("UPDATE fact SET gone = $levels", ("$levels", levels));
            transaction.Commit();
        }

        month.Do("VACUUM");
        month.Do("PRAGMA wal_checkpoint(TRUNCATE)");
        return (rows, ids.Count, month.Ask("SELECT 1 FROM block LIMIT 1") is null && levels > (int)HistoryLevel.QuarterHour);
    }

    private static (long Rows, List<long> Ids) Due(SqliteConnection month, int levels, IReadOnlyList<SeriesReader.Window> pins)
    {
        using var command = month.Command("SELECT id, level, t0, t1, count FROM block WHERE level < $levels", ("$levels", levels));
        using var blocks = command.ExecuteReader();
        var (rows, ids) = (0L, new List<long>());
        while (blocks.Read())
        {
            var level = (HistoryLevel)blocks.GetInt64(1);
            var (begin, end) = (blocks.GetInt64(2), blocks.GetInt64(3) + level.Period());
            if (!pins.Any(pin => pin.From < end && pin.To > begin))
            {
                ids.Add(blocks.GetInt64(0));
                rows += level == HistoryLevel.Raw ? blocks.GetInt64(4) : 0;
            }
        }

        return (rows, ids);
    }
}
