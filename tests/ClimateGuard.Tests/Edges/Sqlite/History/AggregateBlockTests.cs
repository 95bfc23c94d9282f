using System.Globalization;
using ClimateGuard.Edges.Sqlite;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Sqlite.History;

/// <summary>Aggregates come back bit by bit, and those of one reading or of equal readings cost next to nothing.</summary>
public sealed class AggregateBlockTests
{
    private const long Minute = 60_000;

    /// <summary>Rows as sensors make them: one pace, decimals, some of them stuck for a while, some calibrated.</summary>
    private static readonly Gen<HistoryRow[]> SensorRows = Gen.Select(
        Gen.OneOf(new[] { 250L, 1_000, 10_000, 45_000, 100_000, 1_700_000 }.Select(Gen.Const).ToArray()), Gen.Int[0, 40_000], Gen.Int[0, 40].Array[1, 400], Gen.OneOf(Gen.Const(0.0), Gen.Const(0.13), Gen.Const(1.0 / 3)), Gen.Bool).Select(
        (pace, phase, counts, offset, stuck) => counts.Select((count, n) =>
        {
            var raw = 20 + (stuck && n % 50 < 40 ? 0 : count / 100.0);
            return new HistoryRow(1_770_000_000_000 + phase + (n * pace), raw - offset, raw, 0);
        }).ToArray());

    [Fact]
    public void Any_aggregates_come_back_bit_by_bit() => BlockTests.AnyRow.Array[1, 300].Sample(given =>
    {
        var rows = BlockTests.Buffer(given);
        var aggregates = new List<SeriesAggregate>();
        AggregateBlock.Aggregate(rows, 0, rows.Count, 60_000, aggregates);
        AssertComesBack(aggregates, 60_000);
    });

    [Fact]
    public void An_aggregate_is_that_of_the_rows_of_its_period() => BlockTests.AnyRow.Array[1, 200].Sample(given =>
    {
        var rows = BlockTests.Buffer(given);
        var found = new List<SeriesAggregate>();
        AggregateBlock.Aggregate(rows, 0, rows.Count, 900_000, found);

        // The readable way to say the same.
        var all = Enumerable.Range(0, rows.Count).Select(n => rows[n]).ToArray();
        var expected = all.GroupBy(row => (long)Math.Floor(row.Time / 900_000.0) * 900_000).OrderBy(g => g.Key).Select(g => new SeriesAggregate(
            g.Key, g.Count(), g.Min(r => r.Value), g.First(r => r.Value == g.Min(s => s.Value)).Time,
            g.Max(r => r.Value), g.First(r => r.Value == g.Max(s => s.Value)).Time, g.Last().Value, g.Last().Time, g.Aggregate(0.0, (sum, r) => sum + r.Value)));
        Assert.Equal(expected, found);
    });

    [Fact]
    public void Aggregates_of_sensors_come_back_bit_by_bit() => Gen.Select(SensorRows, Gen.OneOf(Gen.Const(Minute), Gen.Const(15 * Minute))).Sample((given, period) =>
        AssertComesBack(Aggregates(given, period), period));

    [Fact]
    public void Minutes_of_a_single_reading_cost_little_over_a_byte_each_wherever_in_its_minute_the_reading_lies()
    {
        var random = new Random(1);
        var rows = Enumerable.Range(0, AggregateBlock.Full).Select(n =>
        {
            var value = (20_000 + random.Next(-20, 21)) / 1_000.0;
            return new HistoryRow(1_770_000_000_000 + (n * 100_000L), value, value, 0);
        });
        Assert.InRange(Packed(Aggregates(rows, Minute), Minute).Length, AggregateBlock.Full, AggregateBlock.Full + 50);
    }

    [Fact]
    public void Minutes_of_equal_readings_cost_little_over_a_byte_each()
    {
        var rows = Enumerable.Range(0, AggregateBlock.Full * 6).Select(n => new HistoryRow(1_770_000_000_000 + (n * 10_000L), 20.7, 20.7, 0));
        Assert.InRange(Packed(Aggregates(rows, Minute)[..^1], Minute).Length, AggregateBlock.Full, AggregateBlock.Full + 50);
    }

    [Theory]
    [InlineData("0", "-0")]
    [InlineData("-0", "0")]
    [InlineData("-0", "-0")]
    public void Zeros_of_either_sign_keep_it(string one, string other)
    {
        var (first, second) = (double.Parse(one, CultureInfo.InvariantCulture), double.Parse(other, CultureInfo.InvariantCulture));
        HistoryRow[] Rows(long pace) => [new(0, first, first, 0), new(pace, second, second, 0)];
        AssertComesBack(Aggregates(Rows(1_000), Minute), Minute);
        AssertComesBack(Aggregates(Rows(Minute), Minute), Minute);
    }

    [Fact]
    public void Every_cut_of_a_block_is_noticed()
    {
        var packed = Packed(Aggregates(Enumerable.Range(0, 50).Select(n => new HistoryRow(n * 10_000L, n % 7, n % 7, 0)), Minute), Minute);
        for (var length = 0; length < packed.Length; length++)
        {
            var cut = packed[..length];
            Assert.Throws<DamagedBlockException>(() => AggregateBlock.Unpack(cut, new AggregateScratch(), []));
        }
    }

    [Fact]
    public void A_period_that_claims_more_readings_than_milliseconds_is_damage_and_no_endless_sum()
    {
        var sink = new ByteSink();
        var begin = BlockFrame.Begin(sink);
        sink.Number(1);
        sink.Number(60_000);
        WholeColumn.Pack([1_770_000_000_000], sink);
        WholeColumn.Pack([long.MaxValue - 1], sink);
        BlockFrame.End(sink, begin);
        Assert.Contains("claims", Assert.Throws<DamagedBlockException>(
            () => AggregateBlock.Unpack(sink.Written, new AggregateScratch(), [])).Message, StringComparison.Ordinal);
    }

    private static List<SeriesAggregate> Aggregates(IEnumerable<HistoryRow> given, long period)
    {
        var rows = BlockTests.Buffer(given);
        var found = new List<SeriesAggregate>();
        AggregateBlock.Aggregate(rows, 0, rows.Count, period, found);
        return found;
    }

    private static byte[] Packed(List<SeriesAggregate> aggregates, long period)
    {
        var sink = new ByteSink();
        AggregateBlock.Pack(aggregates.ToArray(), period, new AggregateScratch(), sink);
        return sink.Written.ToArray();
    }

    private static void AssertComesBack(List<SeriesAggregate> aggregates, long period)
    {
        var found = new List<SeriesAggregate>();
        AggregateBlock.Unpack(Packed(aggregates, period), new AggregateScratch(), found);
        Assert.Equal(aggregates.Select(Bits), found.Select(Bits));
    }

    private static (long, long, long, long, long, long, long, long, long) Bits(SeriesAggregate of) => (
        of.Begin, of.Count, BitConverter.DoubleToInt64Bits(of.Minimum), of.MinimumAt, BitConverter.DoubleToInt64Bits(of.Maximum), of.MaximumAt,
        BitConverter.DoubleToInt64Bits(of.Last), of.LastAt, BitConverter.DoubleToInt64Bits(of.Sum));
}
