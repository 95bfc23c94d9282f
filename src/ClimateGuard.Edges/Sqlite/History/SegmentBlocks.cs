using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Reads the blocks of one month. Not safe across threads.</summary>
internal sealed class SegmentBlocks : IDisposable
{
    private const string Within = "FROM block WHERE level = ?1 AND sensor = ?2 AND t0 < ?4 AND t1 >= ?3 "
        + "AND t0 >= coalesce((SELECT max(t0) FROM block WHERE level = ?1 AND sensor = ?2 AND t0 <= ?3), ?3)";

    private readonly SqliteStatement bodies;
    private readonly SqliteStatement counts;
    private readonly SqliteStatement place;
    private readonly SqliteStatement next;
    private readonly SqliteStatement newest;
    private readonly SqliteStatement gone;
    private readonly AggregateScratch scratch = new();

    public SegmentBlocks(SqliteConnection connection)
    {
        bodies = new(connection, $"SELECT id, t0, t1, body {Within} ORDER BY t0");
        counts = new(connection, $"SELECT ifnull(sum(count), 0) {Within}");
        place = new(connection, "SELECT id, t0, t1, count, body FROM block WHERE level = ?1 AND sensor = ?2 AND t0 <= ?3 ORDER BY t0 DESC LIMIT 1");
        next = new(connection, "SELECT min(t0) FROM block WHERE level = ?1 AND sensor = ?2 AND t0 > ?3");
        newest = new(connection, "SELECT max(t0), t1 FROM block WHERE level = 0 AND sensor = ?1");
        gone = new(connection, "SELECT gone FROM fact");
    }

    /// <summary>Up to which level, counted from raw, the month was cleared: 0 for nothing, 1 for raw, 2 for minutes too.</summary>
    public int LevelsGone()
    {
        gone.Next();
        var levels = (int)gone.Number(0);
        gone.Reset();
        return levels;
    }

    /// <summary>How many elements the blocks hold that reach into a window: never fewer than lie in it.</summary>
    public long CountAtMost(HistoryLevel level, long sensor, long from, long to)
    {
        counts.Bind(1, (long)level).Bind(2, sensor).Bind(3, from).Bind(4, to).Next();
        var found = counts.Number(0);
        counts.Reset();
        return found;
    }

    /// <summary>Appends the rows of a window, [from, to), whole blocks at a time until there are so many.</summary>
    /// <returns>From where to go on, or <paramref name="to"/>.</returns>
    public long Rows(long sensor, long from, long to, int enough, RowBuffer scratchRows, RowBuffer found, CancellationToken cancellation)
    {
        bodies.Bind(1, (long)HistoryLevel.Raw).Bind(2, sensor).Bind(3, from).Bind(4, to);
        try
        {
            while (bodies.Next())
            {
                cancellation.ThrowIfCancellationRequested();
                scratchRows.Clear();
                RawBlock.Unpack(bodies.Bytes(3), scratchRows);
                found.Append(scratchRows, scratchRows.FirstAt(from), scratchRows.FirstAt(to));
                if (found.Count >= enough)
                {
                    return Math.Min(to, bodies.Number(2) + 1);
                }
            }

            return to;
        }
        finally
        {
            bodies.Reset();
        }
    }

    /// <summary>Appends the aggregates whose periods begin in [from, to).</summary>
    public void Aggregates(HistoryLevel level, long sensor, long from, long to, List<SeriesAggregate> found, CancellationToken cancellation)
    {
        bodies.Bind(1, (long)level).Bind(2, sensor).Bind(3, from).Bind(4, to);
        try
        {
            while (bodies.Next())
            {
                cancellation.ThrowIfCancellationRequested();
                var begin = found.Count;
                AggregateBlock.Unpack(bodies.Bytes(3), scratch, found);
                Clip(found, begin, from, to);
            }
        }
        finally
        {
            bodies.Reset();
        }
    }

    /// <summary>The block that holds a moment, or would: the last that begins at or before it, with where the next one begins.</summary>
    public BlockPlace PlaceOf(HistoryLevel level, long sensor, long time)
    {
        var found = new BlockPlace(0, 0, 0, 0, long.MaxValue);
        if (place.Bind(1, (long)level).Bind(2, sensor).Bind(3, time).Next())
        {
            found = new BlockPlace(place.Number(0), place.Number(1), place.Number(2), place.Number(3), long.MaxValue);
        }

        place.Reset();
        next.Bind(1, (long)level).Bind(2, sensor).Bind(3, time).Next();
        found = next.IsNull(0) ? found : found with { NextBegins = next.Number(0) };
        next.Reset();
        return found;
    }

    /// <summary>Appends the rows of the block found by <see cref="PlaceOf"/>.</summary>
    public void RowsOf(BlockPlace found, long sensor, RowBuffer rows)
    {
        if (place.Bind(1, (long)HistoryLevel.Raw).Bind(2, sensor).Bind(3, found.Begin).Next())
        {
            RawBlock.Unpack(place.Bytes(4), rows);
        }

        place.Reset();
    }

    /// <summary>Appends the aggregates of the block found by <see cref="PlaceOf"/>.</summary>
    public void AggregatesOf(BlockPlace found, HistoryLevel level, long sensor, List<SeriesAggregate> aggregates)
    {
        if (place.Bind(1, (long)level).Bind(2, sensor).Bind(3, found.Begin).Next())
        {
            AggregateBlock.Unpack(place.Bytes(4), scratch, aggregates);
        }

        place.Reset();
    }

    /// <summary>Event time of the newest packed row of a sensor, or null.</summary>
    public long? Newest(long sensor)
    {
        newest.Bind(1, sensor).Next();
        long? found = newest.IsNull(0) ? null : newest.Number(1);
        newest.Reset();
        return found;
    }

    public void Dispose()
    {
        foreach (var statement in (ReadOnlySpan<SqliteStatement>)[bodies, counts, place, next, newest, gone])
        {
            statement.Dispose();
        }
    }

    private static void Clip(List<SeriesAggregate> found, int begin, long from, long to)
    {
        var end = found.Count;
        while (end > begin && found[end - 1].Begin >= to)
        {
            end--;
        }

        found.RemoveRange(end, found.Count - end);
        var first = begin;
        while (first < end && found[first].Begin < from)
        {
            first++;
        }

        found.RemoveRange(begin, first - begin);
    }
}

/// <summary>A block and its surroundings; id 0 when no block begins so early.</summary>
/// <param name="Id">Its row.</param>
/// <param name="Begin">First moment in it.</param>
/// <param name="End">Last moment in it.</param>
/// <param name="Count">How many elements.</param>
/// <param name="NextBegins">First moment of the next block, or the greatest number.</param>
internal readonly record struct BlockPlace(long Id, long Begin, long End, long Count, long NextBegins);
