using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Takes a series in time order, once, and keeps at most so many points without losing a minimum or a maximum.</summary>
/// <remarks>
/// What fits is kept as it is. Otherwise the time from the first to the last point is cut into equal buckets, and of each the minimum and
/// the maximum are kept in time order, besides the first and the last point of all. With room for fewer than four points only the minimum
/// and the maximum stay. Memory is of the order of the points asked for, whatever the length of the series. Not safe across threads.
/// </remarks>
public sealed class SeriesThinning
{
    private readonly int points;
    private readonly long first;
    private readonly double bucketsPerMillisecond;
    private readonly List<SeriesPoint> whole = [];
    private readonly List<Bucket> buckets = [];
    private readonly int bucketCount;
    private SeriesPoint last;
    private long count;

    /// <summary>Begins a series.</summary>
    /// <param name="points">The most points to keep, in [2, 20 000].</param>
    /// <param name="first">Time of the first point, in ms since 1970.</param>
    /// <param name="last">Time of the last point, in ms since 1970, not before the first.</param>
    /// <exception cref="ArgumentOutOfRangeException">The points are outside their range, or the end lies before the begin.</exception>
    public SeriesThinning(int points, long first, long last)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, 20_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(last, first);
        this.points = points;
        this.first = first;
        bucketCount = Math.Max(1, (points - 2) / 2);
        bucketsPerMillisecond = bucketCount / ((double)last - first + 1);
    }

    /// <summary>Takes the next point; times never go back.</summary>
    public void Add(SeriesPoint point)
    {
        count++;
        last = point;
        if (count <= points)
        {
            whole.Add(point);
            return;
        }

        if (buckets.Count == 0)
        {
            foreach (var earlier in whole)
            {
                Sort(earlier);
            }
        }

        Sort(point);
    }

    /// <summary>The points that are left, in time order.</summary>
    public IReadOnlyList<SeriesPoint> Points()
    {
        if (count <= points)
        {
            return whole;
        }

        var kept = new List<SeriesPoint>(points);
        var ends = points >= 4;
        if (ends)
        {
            kept.Add(whole[0]);
        }

        foreach (var bucket in buckets)
        {
            var minimumFirst = bucket.Minimum.EpochMilliseconds <= bucket.Maximum.EpochMilliseconds;
            Keep(kept, minimumFirst ? bucket.Minimum : bucket.Maximum);
            Keep(kept, minimumFirst ? bucket.Maximum : bucket.Minimum);
        }

        if (ends)
        {
            Keep(kept, last);
        }

        return kept;
    }

    private static void Keep(List<SeriesPoint> kept, SeriesPoint point)
    {
        if (kept.Count == 0 || kept[^1].EpochMilliseconds < point.EpochMilliseconds)
        {
            kept.Add(point);
        }
    }

    private void Sort(SeriesPoint point)
    {
        var number = Math.Min(bucketCount - 1, (int)((point.EpochMilliseconds - first) * bucketsPerMillisecond));
        if (buckets.Count == 0 || buckets[^1].Number != number)
        {
            buckets.Add(new Bucket(number, point, point));
            return;
        }

        var bucket = buckets[^1];
        if (point.Value < bucket.Minimum.Value)
        {
            buckets[^1] = bucket with { Minimum = point };
        }
        else if (point.Value > bucket.Maximum.Value)
        {
            buckets[^1] = bucket with { Maximum = point };
        }
    }

    private readonly record struct Bucket(int Number, SeriesPoint Minimum, SeriesPoint Maximum);
}
