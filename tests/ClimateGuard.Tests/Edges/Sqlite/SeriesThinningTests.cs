using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class SeriesThinningTests
{
    [Fact]
    public void What_fits_is_kept_as_it_is() =>
        Assert.Equal([new(0, 3), new(5, 1), new(9, 2)], Thin(3, [new(0, 3), new(5, 1), new(9, 2)]));

    [Fact]
    public void First_and_last_are_kept_and_each_bucket_gives_its_minimum_and_maximum_in_time_order()
    {
        // Six points leave two buckets beside the ends: 0..4 and 5..9.
        SeriesPoint[] series =
            [new(0, 5), new(1, 9), new(2, 1), new(3, 4), new(4, 5), new(5, 6), new(6, 2), new(7, 3), new(8, 8), new(9, 5)];
        Assert.Equal([new(0, 5), new(1, 9), new(2, 1), new(6, 2), new(8, 8), new(9, 5)], Thin(6, series));
    }

    [Fact]
    public void A_constant_series_takes_one_point_a_bucket() =>
        Assert.Equal([new(0, 7), new(5, 7), new(9, 7)], Thin(6, [.. Enumerable.Range(0, 10).Select(n => new SeriesPoint(n, 7))]));

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void With_room_for_fewer_than_four_only_the_extremes_stay(int points) =>
        Assert.Equal([new(1, 9), new(3, 1)], Thin(points, [new(0, 5), new(1, 9), new(2, 5), new(3, 1), new(4, 5)]));

    [Fact]
    public void A_long_gap_takes_no_points_from_what_lies_beside_it()
    {
        SeriesPoint[] series = [.. Enumerable.Range(0, 50).Select(n => new SeriesPoint(n, n)), new(1_000_000_000_000, 1)];
        Assert.Equal([new(0, 0), new(49, 49), new(1_000_000_000_000, 1)], Thin(10, series));
    }

    [Theory]
    [InlineData(1, 0, 1)]
    [InlineData(20_001, 0, 1)]
    [InlineData(10, 1, 0)]
    public void Points_out_of_range_and_a_backward_series_are_refused(int points, long first, long last) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new SeriesThinning(points, first, last));

    [Fact]
    public void Any_series_keeps_its_extremes_and_its_ends_within_the_points_and_in_time_order() =>
        Gen.Select(Gen.Double[-50, 50].Array[1, 500], Gen.Int[2, 80], Gen.Long[-1_000_000_000_000, 4_000_000_000_000], Gen.Int[1, 100_000]).Sample(
            (values, points, begin, step) =>
            {
                SeriesPoint[] series = [.. values.Select((value, n) => new SeriesPoint(begin + ((long)n * n * step), value))];
                var kept = Thin(points, series);
                return kept.Count <= points
                    && kept.Min(p => p.Value) == values.Min() && kept.Max(p => p.Value) == values.Max()
                    && (points < 4 || (kept[0] == series[0] && kept[^1] == series[^1]))
                    && kept.Zip(kept.Skip(1)).All(pair => pair.First.EpochMilliseconds < pair.Second.EpochMilliseconds)
                    && kept.All(p => series.Contains(p));
            },
            iter: 2_000);

    private static IReadOnlyList<SeriesPoint> Thin(int points, SeriesPoint[] series)
    {
        var thinning = new SeriesThinning(points, series[0].EpochMilliseconds, series[^1].EpochMilliseconds);
        foreach (var point in series)
        {
            thinning.Add(point);
        }

        return thinning.Points();
    }
}
