using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Packs rows into the file of one month and recomputes the aggregates they touch. One transaction; not safe across threads.</summary>
/// <remarks>
/// Putting the same rows again changes nothing, so that work cut off in the middle is simply done again. An aggregate is never added to: it is
/// computed anew from all rows of its period in time order, so the order of arrival cannot show in it.
/// </remarks>
internal sealed class SegmentWriter : IDisposable
{
    // Rows farther apart than this are packed on their own, so that one late row does not rewrite the days between.
    private const long Apart = 6 * 3_600_000L;

    private readonly SqliteConnection connection;
    private readonly SegmentBlocks blocks;
    private readonly SqliteStatement insert;
    private readonly SqliteStatement delete;
    private readonly ByteSink sink = new();
    private readonly AggregateScratch scratch = new();
    private readonly RowBuffer stored = new();
    private readonly RowBuffer merged = new();
    private readonly RowBuffer touched = new();
    private readonly List<SeriesAggregate> fresh = [];
    private readonly List<SeriesAggregate> old = [];
    private readonly List<SeriesAggregate> together = [];

    public SegmentWriter(SqliteConnection connection)
    {
        this.connection = connection;
        blocks = new SegmentBlocks(connection);
        insert = new(connection, "INSERT INTO block(level, sensor, t0, t1, count, body) VALUES(?1, ?2, ?3, ?4, ?5, ?6)");
        delete = new(connection, "DELETE FROM block WHERE id = ?1");
        connection.Do("BEGIN IMMEDIATE");
    }

    /// <summary>Takes over names that the month does not know yet.</summary>
    public void Name(string table, IReadOnlyDictionary<long, string> names)
    {
        foreach (var (id, name) in names)
        {
            connection.Do($"INSERT OR IGNORE INTO {table}(id, name) VALUES($id, $name)", ("$id", id), ("$name", name));
        }
    }

    /// <summary>Packs rows [from, to) of a sensor, all of this month.</summary>
    public void Put(long sensor, RowBuffer rows, int from, int to)
    {
        var times = rows.Times;
        while (from < to)
        {
            var end = from + 1;
            while (end < to && times[end] - times[end - 1] < Apart)
            {
                end++;
            }

            PutRun(sensor, rows, from, end);
            from = end;
        }
    }

    public void Commit() => connection.Do("COMMIT");

    /// <summary>Gives up what was not committed.</summary>
    public void Dispose()
    {
        connection.RollBackIfOpen();
        blocks.Dispose();
        insert.Dispose();
        delete.Dispose();
    }

    private void PutRun(long sensor, RowBuffer rows, int from, int to)
    {
        var (first, last) = (rows.Times[from], rows.Times[to - 1]);
        while (from < to)
        {
            var place = blocks.PlaceOf(HistoryLevel.Raw, sensor, rows.Times[from]);
            var end = place.NextBegins == long.MaxValue ? to : Math.Min(to, rows.FirstAt(place.NextBegins));
            stored.Clear();
            // A full block that ends before these rows stays as it is.
            if (place.Id != 0 && (place.Count < RawBlock.Full || place.End >= rows.Times[from]))
            {
                blocks.RowsOf(place, sensor, stored);
                delete.Bind(1, place.Id).Run();
            }

            merged.Clear();
            merged.Merge(stored, rows, from, end);
            PackRows(sensor, isNewest: place.NextBegins == long.MaxValue);
            from = end;
        }

        var quarter = HistoryLevel.QuarterHour.Period();
        var (begin, over) = (AggregateBlock.PeriodBegin(first, quarter), AggregateBlock.PeriodBegin(last, quarter) + quarter);
        touched.Clear();
        blocks.Rows(sensor, begin, over, int.MaxValue, stored, touched, CancellationToken.None);
        foreach (var level in HistoryLevels.Aggregates)
        {
            fresh.Clear();
            AggregateBlock.Aggregate(touched, 0, touched.Count, level.Period(), fresh);
            PutAggregates(level, sensor);
        }
    }

    /// <summary>The newest rows fill block after block; a block in the middle that grew too large is cut in equal parts.</summary>
    private void PackRows(long sensor, bool isNewest)
    {
        var parts = (merged.Count + RawBlock.Full - 1) / RawBlock.Full;
        var size = isNewest ? RawBlock.Full : (merged.Count + parts - 1) / parts;
        for (var at = 0; at < merged.Count; at += size)
        {
            var end = Math.Min(merged.Count, at + size);
            sink.Clear();
            RawBlock.Pack(merged, at, end, sink);
            Insert(HistoryLevel.Raw, sensor, merged.Times[at], merged.Times[end - 1], end - at);
        }
    }

    /// <summary>Puts the fresh aggregates in the place of those of the same periods.</summary>
    private void PutAggregates(HistoryLevel level, long sensor)
    {
        for (var from = 0; from < fresh.Count;)
        {
            var place = blocks.PlaceOf(level, sensor, fresh[from].Begin);
            var end = from + 1;
            while (end < fresh.Count && fresh[end].Begin < place.NextBegins)
            {
                end++;
            }

            old.Clear();
            if (place.Id != 0 && (place.Count < AggregateBlock.Full || place.End >= fresh[from].Begin))
            {
                blocks.AggregatesOf(place, level, sensor, old);
                delete.Bind(1, place.Id).Run();
            }

            Replace(from, end);
            PackAggregates(level, sensor, isNewest: place.NextBegins == long.MaxValue);
            from = end;
        }
    }

    private void Replace(int from, int end)
    {
        together.Clear();
        var at = 0;
        for (; from < end; from++)
        {
            for (; at < old.Count && old[at].Begin < fresh[from].Begin; at++)
            {
                together.Add(old[at]);
            }

            at += at < old.Count && old[at].Begin == fresh[from].Begin ? 1 : 0;
            together.Add(fresh[from]);
        }

        for (; at < old.Count; at++)
        {
            together.Add(old[at]);
        }
    }

    private void PackAggregates(HistoryLevel level, long sensor, bool isNewest)
    {
        var all = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(together);
        var parts = (all.Length + AggregateBlock.Full - 1) / AggregateBlock.Full;
        var size = isNewest ? AggregateBlock.Full : (all.Length + parts - 1) / parts;
        while (all.Length > 0)
        {
            var part = all[..Math.Min(size, all.Length)];
            sink.Clear();
            AggregateBlock.Pack(part, scratch, sink);
            Insert(level, sensor, part[0].Begin, part[^1].Begin, part.Length);
            all = all[part.Length..];
        }
    }

    private void Insert(HistoryLevel level, long sensor, long begin, long end, int count) =>
        insert.Bind(1, (long)level).Bind(2, sensor).Bind(3, begin).Bind(4, end).Bind(5, count).Bind(6, sink.Written).Run();
}
