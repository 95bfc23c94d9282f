using System.Runtime.InteropServices;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Puts together what is packed in the months and what is loose. One question at a time; not safe across threads.</summary>
/// <remarks>What is loose is copied first and the months are read after: what is packed in between is then seen twice, and never missed.</remarks>
internal sealed class HistoryReader(SegmentShelf shelf, LooseMemory memory, long sensor, CancellationToken cancellation)
{
    /// <summary>So many elements are unpacked within a few milliseconds; more than that come from the next coarser level.</summary>
    private const long Cheap = 32_768;

    private readonly RowBuffer scratch = new();

    /// <summary>Points of a window, at most so many, with its least and its greatest.</summary>
    public IReadOnlyList<SeriesPoint> Points(SeriesReader.Window window, int points)
    {
        var loose = Loose(window);
        var found = new List<SeriesPoint>();
        foreach (var month in MonthsOf(window))
        {
            var begin = found.Count;
            if (!shelf.TryRead(month, reader =>
                {
                    using var blocks = new SegmentBlocks(reader);
                    var part = new SeriesReader.Window(Math.Max(window.From, month.Begin), Math.Min(window.To, month.End));
                    AddMonth(blocks, part, LevelFor(blocks, window, part, points), found);
                }))
            {
                found.RemoveRange(begin, found.Count - begin);
            }
        }

        AddRows(loose, found);
        return Thinned(found, points);
    }

    /// <summary>Rows of a window in time order, at least so many if there are, and from where to go on.</summary>
    public (RowBuffer Rows, long Next) Rows(SeriesReader.Window window, int enough)
    {
        var loose = Loose(window);
        var packed = new RowBuffer();
        var next = window.To;
        foreach (var month in MonthsOf(window))
        {
            var to = Math.Min(window.To, month.End);
            var reached = to;
            var part = new RowBuffer();
            if (shelf.TryRead(month, reader =>
                {
                    using var blocks = new SegmentBlocks(reader);
                    reached = blocks.Rows(sensor, Math.Max(window.From, month.Begin), to, enough - packed.Count, scratch, part, cancellation);
                }))
            {
                packed.Append(part, 0, part.Count);
            }

            if (packed.Count >= enough)
            {
                next = reached;
                break;
            }
        }

        var found = new RowBuffer();
        found.Merge(packed, loose, 0, loose.FirstAt(next));
        return (found, next);
    }

    /// <summary>The aggregates of the periods that begin in a window, as if computed from the raw rows at this moment.</summary>
    public IReadOnlyList<SeriesAggregate> Aggregates(SeriesReader.Window window, HistoryLevel level)
    {
        var period = level.Period();
        var end = AggregateBlock.PeriodBegin(window.To + period - 1, period);
        var loose = Loose(window with { To = end });
        var found = new List<SeriesAggregate>();
        foreach (var month in MonthsOf(window))
        {
            shelf.TryRead(month, reader =>
            {
                using var blocks = new SegmentBlocks(reader);
                blocks.Aggregates(level, sensor, Math.Max(window.From, month.Begin), Math.Min(window.To, month.End), found, cancellation);
            });
        }

        // Periods that loose rows touch are computed anew from all their rows.
        var anew = new Dictionary<long, SeriesAggregate>();
        foreach (var begin in loose.Times.ToArray().Select(time => AggregateBlock.PeriodBegin(time, period)).Distinct())
        {
            var rows = Rows(new SeriesReader.Window(begin, begin + period), int.MaxValue).Rows;
            var one = new List<SeriesAggregate>();
            AggregateBlock.Aggregate(rows, 0, rows.Count, period, one);
            anew[begin] = one[0];
        }

        found.RemoveAll(aggregate => anew.ContainsKey(aggregate.Begin));
        found.AddRange(anew.Values.Where(aggregate => aggregate.Begin >= window.From && aggregate.Begin < window.To));
        found.Sort(static (one, other) => one.Begin.CompareTo(other.Begin));
        return found;
    }

    private static IReadOnlyList<SeriesPoint> Thinned(List<SeriesPoint> found, int points)
    {
        var span = CollectionsMarshal.AsSpan(found);
        if (span.Length == 0)
        {
            return [];
        }

        if (!InOrder(span))
        {
            span.Sort(static (one, other) => one.EpochMilliseconds.CompareTo(other.EpochMilliseconds));
        }

        var thinning = new SeriesThinning(points, span[0].EpochMilliseconds, span[^1].EpochMilliseconds);
        var before = long.MinValue;
        foreach (ref readonly var point in span)
        {
            if (point.EpochMilliseconds != before)
            {
                thinning.Add(point);
                before = point.EpochMilliseconds;
            }
        }

        return thinning.Points();
    }

    private static bool InOrder(ReadOnlySpan<SeriesPoint> points)
    {
        for (var n = 1; n < points.Length; n++)
        {
            if (points[n].EpochMilliseconds < points[n - 1].EpochMilliseconds)
            {
                return false;
            }
        }

        return true;
    }

    private static void AddRows(RowBuffer rows, List<SeriesPoint> found)
    {
        var times = rows.Times;
        var values = rows.Values;
        for (var n = 0; n < times.Length; n++)
        {
            found.Add(new SeriesPoint(times[n], values[n]));
        }
    }

    /// <summary>The finest level that is cheap enough and not coarser than the points on the screen.</summary>
    private HistoryLevel LevelFor(SegmentBlocks blocks, SeriesReader.Window window, SeriesReader.Window part, int points)
    {
        // All months of a window together must stay cheap; this one may have its share of them.
        var share = Cheap * ((double)(part.To - part.From) / (window.To - window.From));
        var bucket = (window.To - window.From) / Math.Max(1, (points - 2) / 2);
        var level = (HistoryLevel)Math.Min(blocks.LevelsGone(), (int)HistoryLevel.QuarterHour);
        foreach (var coarser in HistoryLevels.Aggregates)
        {
            if (coarser <= level)
            {
                continue;
            }

            if (blocks.CountAtMost(level, sensor, part.From, part.To) <= Math.Max(share, 4 * RawBlock.Full) || coarser.Period() > bucket)
            {
                break;
            }

            level = coarser;
        }

        return level;
    }

    private void AddMonth(SegmentBlocks blocks, SeriesReader.Window part, HistoryLevel level, List<SeriesPoint> found)
    {
        var gone = blocks.LevelsGone();
        var pinned = gone > 0 && blocks.CountAtMost(HistoryLevel.Raw, sensor, part.From, part.To) is > 0 and <= Cheap;
        if (level == HistoryLevel.Raw || pinned)
        {
            AddRaw(blocks, part.From, part.To, found);
            if (level == HistoryLevel.Raw)
            {
                return;
            }
        }

        var period = level.Period();
        var (from, to) = (AggregateBlock.PeriodBegin(part.From + period - 1, period), AggregateBlock.PeriodBegin(part.To, period));
        AddRaw(blocks, part.From, Math.Min(from, part.To), found);

        // Where the raw rows of the ends are gone, those of the extremes that lie inside are all that is known.
        AddAggregates(blocks, level, gone > 0 ? new(from - period, to + period) : new(from, to), part, found);
        AddRaw(blocks, Math.Max(to, from), part.To, found);
    }

    private void AddRaw(SegmentBlocks blocks, long from, long to, List<SeriesPoint> found)
    {
        if (from < to)
        {
            var rows = new RowBuffer();
            blocks.Rows(sensor, from, to, int.MaxValue, scratch, rows, cancellation);
            AddRows(rows, found);
        }
    }

    private void AddAggregates(SegmentBlocks blocks, HistoryLevel level, SeriesReader.Window periods, SeriesReader.Window part, List<SeriesPoint> found)
    {
        if (periods.From >= periods.To)
        {
            return;
        }

        var aggregates = new List<SeriesAggregate>();
        blocks.Aggregates(level, sensor, periods.From, periods.To, aggregates, cancellation);
        foreach (ref readonly var aggregate in CollectionsMarshal.AsSpan(aggregates))
        {
            var least = new SeriesPoint(aggregate.MinimumAt, aggregate.Minimum);
            var most = new SeriesPoint(aggregate.MaximumAt, aggregate.Maximum);
            var leastFirst = least.EpochMilliseconds <= most.EpochMilliseconds;
            AddInside(leastFirst ? least : most, part, found);
            AddInside(leastFirst ? most : least, part, found);
        }
    }

    private static void AddInside(SeriesPoint point, SeriesReader.Window part, List<SeriesPoint> found)
    {
        if (point.EpochMilliseconds >= part.From && point.EpochMilliseconds < part.To)
        {
            found.Add(point);
        }
    }

    private RowBuffer Loose(SeriesReader.Window window)
    {
        var loose = new RowBuffer();
        lock (memory.Gate)
        {
            memory.Copy(sensor, window.From, window.To, loose);
        }

        return loose;
    }

    private IEnumerable<SegmentMonth> MonthsOf(SeriesReader.Window window) =>
        shelf.Months.Where(month => month.Begin < window.To && month.End > window.From);
}
