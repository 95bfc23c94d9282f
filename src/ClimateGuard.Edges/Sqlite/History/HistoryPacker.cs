using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Moves loose readings from the log into the months. Safe across threads.</summary>
/// <param name="writer">The connection that writes the log.</param>
/// <param name="writing">Held by whoever uses that connection.</param>
/// <param name="memory">What is loose.</param>
/// <param name="shelf">The months.</param>
internal sealed class HistoryPacker(SqliteConnection writer, Lock writing, LooseMemory memory, SegmentShelf shelf)
{
    /// <summary>Held while months are written.</summary>
    public Lock Packing { get; } = new();

    /// <summary>Packs what is loose at this moment; on return it lies in the months and is gone from the log.</summary>
    /// <exception cref="SqliteException">A month cannot be written; everything is still in the log.</exception>
    public void Pack()
    {
        lock (Packing)
        {
            if (memory.BeginPacking() is { } rows)
            {
                PackMonths(rows);
                Forget(rows);
            }
        }
    }

    /// <summary>Packs rows of sensors into their months.</summary>
    public void PackMonths(LooseRows rows)
    {
        var (sensors, reasons) = Names();
        foreach (var month in rows.All.SelectMany(pair => MonthsOf(pair.Rows)).Distinct().Order().ToArray())
        {
            try
            {
                PackMonth(month, rows, sensors, reasons);
            }
            catch (Exception fault) when (fault is DamagedBlockException || (fault is SqliteException sqlite && SqliteFault.IsDamage(sqlite)))
            {
                shelf.SetAside(month, fault.Message);
                PackMonth(month, rows, sensors, reasons);
            }
        }
    }

    private static IEnumerable<SegmentMonth> MonthsOf(RowBuffer rows)
    {
        for (var at = 0; at < rows.Count;)
        {
            var month = SegmentMonth.Of(rows.Times[at]);
            yield return month;
            at = rows.FirstAt(month.End);
        }
    }

    private static Dictionary<long, string> Missing(SqliteConnection month, string table, Dictionary<long, string> names)
    {
        var known = NameTable.Names(month, table);
        return names.Where(pair => !known.ContainsKey(pair.Key)).ToDictionary();
    }

    private void PackMonth(SegmentMonth month, LooseRows rows, Dictionary<long, string> sensors, Dictionary<long, string> reasons)
    {
        using var file = shelf.OpenWriter(month);
        using var pack = new SegmentWriter(file.Writer);
        pack.Name("sensor", Missing(file.Writer, "sensor", sensors));
        pack.Name("reason", Missing(file.Writer, "reason", reasons));
        foreach (var (sensor, some) in rows.All)
        {
            pack.Put(sensor, some, some.FirstAt(month.Begin), some.FirstAt(month.End));
        }

        pack.Commit();
    }

    private void Forget(LooseRows rows)
    {
        lock (writing)
        {
            writer.Do("BEGIN IMMEDIATE");
            try
            {
                writer.Do("DELETE FROM log WHERE id <= $through", ("$through", rows.Through));
                writer.Do("UPDATE tally SET packed = max(packed, $through)", ("$through", rows.Through));
                lock (memory.Gate)
                {
                    writer.Do("COMMIT");
                    memory.EndPacking(rows);
                }
            }
            catch
            {
                writer.RollBackIfOpen();
                throw;
            }
        }
    }

    private (Dictionary<long, string> Sensors, Dictionary<long, string> Reasons) Names()
    {
        lock (writing)
        {
            return (NameTable.Names(writer, "sensor"), NameTable.Names(writer, "reason"));
        }
    }
}
