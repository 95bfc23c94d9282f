using ClimateGuard.Edges.Sqlite;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Sqlite.History;

/// <summary>What is packed comes back bit by bit, whatever it is; what was damaged is noticed.</summary>
public sealed class BlockTests
{
    private static readonly double[] Awkward =
        [0.0, -0.0, double.Epsilon, -double.Epsilon, 2.2250738585072014E-308, double.MaxValue, double.MinValue, 1e-300, 0.1 + 0.2, 1.0 / 3, 4503599627370496.5];

    private static readonly Gen<double> AnyValue = Gen.OneOf(
        Gen.Double.Where(double.IsFinite), Gen.Int[-50_000, 50_000].Select(n => n / 1_000.0), Gen.Int[-300, 300].Select(n => n / 10.0), Gen.Int[0, Awkward.Length - 1].Select(n => Awkward[n]));

    private static readonly Gen<long> AnyTime = Gen.OneOf(
        Gen.Long[-62_135_596_800_000, 253_402_300_799_999], Gen.Int[0, 100_000].Select(n => 1_770_000_000_000 + (n * 10_000L)));

    private static readonly Gen<HistoryRow> AnyRow = Gen.Select(AnyTime, AnyValue, AnyValue, Gen.Byte, Gen.Int[0, 3]).Select(
        (time, value, raw, reason, kind) => kind switch
        {
            0 => new HistoryRow(time, value, value, 0),
            1 => new HistoryRow(time, raw - 0.2, raw, 2),
            _ => new HistoryRow(time, value, raw, reason),
        });

    [Fact]
    public void Any_rows_come_back_bit_by_bit() => AnyRow.Array[1, 300].Sample(given =>
    {
        var rows = Buffer(given);
        var sink = new ByteSink();
        RawBlock.Pack(rows, 0, rows.Count, sink);
        var found = new RowBuffer();
        RawBlock.Unpack(sink.Written, found);
        AssertSame(rows, found);
    });

    [Fact]
    public void A_calibrated_sensor_comes_back_bit_by_bit_and_costs_no_more_than_its_raw_values() =>
        Gen.Select(Gen.Int[-500, 500], Gen.Int[15_000, 30_000].Array[2, 500]).Sample((offset, values) =>
        {
            var (raw, calibrated) = (new RowBuffer(), new RowBuffer());
            for (var n = 0; n < values.Length; n++)
            {
                var value = values[n] / 1_000.0;
                raw.Add(new HistoryRow(n * 10_000L, value, value, 0));
                calibrated.Add(new HistoryRow(n * 10_000L, value - (offset / 1_000.0), value, 2));
            }

            var (plain, corrected) = (new ByteSink(), new ByteSink());
            RawBlock.Pack(raw, 0, raw.Count, plain);
            RawBlock.Pack(calibrated, 0, calibrated.Count, corrected);
            var found = new RowBuffer();
            RawBlock.Unpack(corrected.Written, found);
            AssertSame(calibrated, found);
            Assert.InRange(corrected.Length, plain.Length, plain.Length + 8);
        });

    [Fact]
    public void Any_aggregates_come_back_bit_by_bit() => AnyRow.Array[1, 300].Sample(given =>
    {
        var rows = Buffer(given);
        var aggregates = new List<SeriesAggregate>();
        AggregateBlock.Aggregate(rows, 0, rows.Count, 60_000, aggregates);
        var sink = new ByteSink();
        AggregateBlock.Pack(aggregates.ToArray(), new AggregateScratch(), sink);
        var found = new List<SeriesAggregate>();
        AggregateBlock.Unpack(sink.Written, new AggregateScratch(), found);

        Assert.Equal(aggregates.Select(Bits), found.Select(Bits));
    });

    [Fact]
    public void An_aggregate_is_that_of_the_rows_of_its_period() => AnyRow.Array[1, 200].Sample(given =>
    {
        var rows = Buffer(given);
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
    public void A_batch_of_the_log_comes_back_bit_by_bit() => Gen.Select(Gen.Int[0, 20], AnyRow).Array[0, 100].Sample(given =>
    {
        var batch = given.DistinctBy(pair => (pair.Item1, pair.Item2.Time)).Select(pair => ((long)pair.Item1, pair.Item2)).ToArray();
        var sink = new ByteSink();
        LogBody.Pack(batch, sink);
        if (batch.Length == 0)
        {
            return;
        }

        var found = new LooseRows();
        LogBody.Unpack(sink.Written, found, 0);
        Assert.Equal(batch.Length, found.Count);
        Assert.All(batch, item =>
        {
            var rows = found.Of(item.Item1)!;
            Assert.Equal(Bits(item.Item2), Bits(rows[rows.Find(item.Item2.Time)]));
        });
    });

    [Fact]
    public void Every_single_flipped_bit_and_every_cut_is_noticed()
    {
        var rows = Buffer([.. Enumerable.Range(0, 50).Select(n => new HistoryRow(n * 10_000L, 20 + (n % 7 * 0.1), 20 + (n % 7 * 0.1), 0))]);
        var sink = new ByteSink();
        RawBlock.Pack(rows, 0, rows.Count, sink);
        for (var bit = 0; bit < sink.Length * 8; bit++)
        {
            var bent = sink.Written.ToArray();
            bent[bit / 8] ^= (byte)(1 << (bit % 8));
            Assert.Throws<DamagedBlockException>(() => RawBlock.Unpack(bent, new RowBuffer()));
        }

        for (var length = 0; length < sink.Length; length++)
        {
            var cut = sink.Written[..length].ToArray();
            Assert.Throws<DamagedBlockException>(() => RawBlock.Unpack(cut, new RowBuffer()));
        }
    }

    [Fact]
    public void Steady_times_and_decimals_cost_little_over_a_byte_a_row()
    {
        var random = new Random(1);
        var rows = Buffer([.. Enumerable.Range(0, 1_024).Select(n =>
        {
            var value = 20_000 + (int)(500 * Math.Sin(n / 300.0)) + random.Next(-10, 11);
            return new HistoryRow(1_770_000_000_000 + (n * 10_000L), value / 1_000.0, value / 1_000.0, 0);
        })]);
        var sink = new ByteSink();
        RawBlock.Pack(rows, 0, rows.Count, sink);
        Assert.InRange(sink.Length, 1_024, 1_100);
    }

    [Fact]
    public void Packing_and_unpacking_cost_no_garbage()
    {
        var rows = Buffer([.. Enumerable.Range(0, 1_024).Select(n => new HistoryRow(n * 10_000L, n / 7.0, n / 7.0, 0))]);
        var (sink, found) = (new ByteSink(), new RowBuffer());
        PackAndUnpack();
        // The least of some rounds: the runtime allocates a little of its own while it compiles.
        Assert.Equal(0, Enumerable.Range(0, 10).Min(_ =>
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            PackAndUnpack();
            return GC.GetAllocatedBytesForCurrentThread() - before;
        }));

        void PackAndUnpack()
        {
            sink.Clear();
            RawBlock.Pack(rows, 0, rows.Count, sink);
            found.Clear();
            RawBlock.Unpack(sink.Written, found);
        }
    }

    [Fact]
    public void Two_lists_of_rows_are_merged_in_time_order_and_the_first_wins() =>
        Gen.Select(Gen.Int[0, 60].Array[0, 40], Gen.Int[0, 60].Array[0, 40]).Sample((one, two) =>
        {
            var first = Buffer([.. one.Select(time => new HistoryRow(time, 1, 1, 0))]);
            var second = Buffer([.. two.Select(time => new HistoryRow(time, 2, 2, 0))]);
            var found = new RowBuffer();
            found.Merge(first, second, 0, second.Count);

            var expected = one.Select(time => (Time: (long)time, Value: 1.0)).Concat(two.Except(one).Select(time => ((long)time, 2.0))).Distinct().Order();
            Assert.Equal(expected, Enumerable.Range(0, found.Count).Select(n => (found[n].Time, found[n].Value)));
        });

    private static RowBuffer Buffer(HistoryRow[] rows)
    {
        var buffer = new RowBuffer();
        foreach (var row in rows)
        {
            buffer.Add(in row);
        }

        return buffer;
    }

    private static void AssertSame(RowBuffer expected, RowBuffer found) => Assert.Equal(
        Enumerable.Range(0, expected.Count).Select(n => Bits(expected[n])), Enumerable.Range(0, found.Count).Select(n => Bits(found[n])));

    private static (long, long, long, byte) Bits(HistoryRow row) =>
        (row.Time, BitConverter.DoubleToInt64Bits(row.Value), BitConverter.DoubleToInt64Bits(row.Raw), row.Reason);

    private static (long, long, long, long, long, long, long, long, long) Bits(SeriesAggregate of) => (
        of.Begin, of.Count, BitConverter.DoubleToInt64Bits(of.Minimum), of.MinimumAt, BitConverter.DoubleToInt64Bits(of.Maximum), of.MaximumAt,
        BitConverter.DoubleToInt64Bits(of.Last), of.LastAt, BitConverter.DoubleToInt64Bits(of.Sum));
}
