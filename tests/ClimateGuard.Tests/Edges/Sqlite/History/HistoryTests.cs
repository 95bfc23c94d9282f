using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Edges.Sqlite.History;

/// <summary>Levels, months, late rows and second deliveries of a history that is packed now and then.</summary>
public sealed class HistoryTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();
    private SqliteReadings readings;

    public HistoryTests() => readings = place.OpenReadings(TemporaryStore.CellWith(2));

    public void Dispose()
    {
        readings.Dispose();
        place.Dispose();
    }

    /// <summary>Late, early, twice, in conflict, set aside, across months, packed in between or not, reopened or not.</summary>
    [Fact]
    public async Task Rows_and_aggregates_are_those_of_the_first_values_whatever_the_order_of_arrival()
    {
        var run = 0;
        await Gen.Select(Gen.Int[1, 400], Gen.Int[1, 90], Gen.Int[0, 1_000_000]).SampleAsync(
            async (count, batchSize, seed) =>
            {
                var random = new Random(seed);
                // Each run begins an hour before the end of a month of its own.
                var begin = new DateTimeOffset(2000, 2, 1, 0, 0, 0, TimeSpan.Zero).AddMonths(2 * Interlocked.Increment(ref run)).AddHours(-1);
                var spread = random.Next(2) == 0 ? 7_200 : 30_000;
                var sent = Enumerable.Range(0, count).Select(_ => Some(random, begin.ToUnixTimeMilliseconds() + (random.Next(spread) * 1_000L))).ToArray();
                var first = new SortedDictionary<long, TrustedReading>();
                foreach (var batch in sent.Chunk(batchSize))
                {
                    await readings.AppendAsync(batch, None);
                    foreach (var reading in batch.Where(r => r.Trust != Trust.Quarantined))
                    {
                        first.TryAdd(reading.Raw.EpochMilliseconds, reading);
                    }

                    await NowAndThenAsync(random);
                }

                var to = begin.AddDays(1);
                Assert.Equal(
                    first.Values.Select(r => new SeriesPoint(r.Raw.EpochMilliseconds, r.Value)), await readings.ReadAsync("s0", begin, to, 1_000, None));
                Assert.Equal(Expected(first.Values, 60_000), await readings.AggregatesAsync("s0", begin, to, HistoryLevel.Minute, None));
                Assert.Equal(Expected(first.Values, 900_000), await readings.AggregatesAsync("s0", begin, to, HistoryLevel.QuarterHour, None));
                await readings.PackAsync(None);
                Assert.Equal(Expected(first.Values, 60_000), await readings.AggregatesAsync("s0", begin, to, HistoryLevel.Minute, None));
            },
            iter: 30,
            threads: 1);
    }

    [Theory]
    [InlineData(60, 365, 400)]
    [InlineData(10, 30, 60)]
    public async Task A_long_window_has_its_least_and_its_greatest_as_they_were_read(int seconds, int days, int points)
    {
        var random = new Random(5);
        var count = days * 86_400 / seconds;
        var batch = Enumerable.Range(0, count).Select(n => At(0, n * seconds * 1_000L, Math.Round(20 + Math.Sin(n / 1e4) + random.NextDouble(), 3))).ToArray();
        foreach (var part in batch.Chunk(100_000))
        {
            await readings.AppendAsync(part, None);
        }

        await readings.PackAsync(None);
        for (var round = 0; round < 5; round++)
        {
            var (from, to) = (random.Next(count / 3), count - random.Next(1, count / 3));
            var window = batch.AsSpan(from, to - from).ToArray();
            var found = await readings.ReadAsync(
                "s0", window[0].Raw.Time.AddMilliseconds(-random.Next(9_000)), window[^1].Raw.Time.AddMilliseconds(1), points, None);

            Assert.InRange(found.Count, points / 2, points);
            Assert.Equal(window.Min(r => r.Value), found.Min(p => p.Value));
            Assert.Equal(window.Max(r => r.Value), found.Max(p => p.Value));
            Assert.All(found.Zip(found.Skip(1)), pair => Assert.True(pair.First.EpochMilliseconds < pair.Second.EpochMilliseconds));
            Assert.Subset(window.Select(r => new SeriesPoint(r.Raw.EpochMilliseconds, r.Value)).ToHashSet(), found.ToHashSet());
        }
    }

    [Fact]
    public async Task A_second_delivery_of_what_was_packed_leaves_no_trace_and_another_value_is_set_aside()
    {
        var batch = Enumerable.Range(0, 5_000).Select(n => At(n % 2, n * 1_000L, n / 10.0)).ToArray();
        await readings.AppendAsync(batch, None);
        await readings.PackAsync(None);
        await readings.AppendAsync(batch, None);
        await readings.AppendAsync(new[] { At(0, 2_000, 99), At(0, 2_500, 7) }, None);

        Assert.Equal((5_001, 1), (readings.Health().Rows, readings.Health().Quarantined));
        Assert.Equal(99, (await readings.ReadQuarantinedAsync("s0", Begin, Begin.AddDays(1), 10, None)).Single().Raw);
        Assert.Contains(new SeriesPoint(Begin.ToUnixTimeMilliseconds() + 2_500, 7), await readings.ReadAsync("s0", Begin, Begin.AddDays(1), 10_000, None));
    }

    [Fact]
    public async Task Each_month_has_a_file_and_the_log_is_empty_when_all_is_packed()
    {
        await readings.AppendAsync(new[] { At(0, 0, 1), At(0, 40L * 86_400_000, 2), At(1, 40L * 86_400_000, 3) }, None);
        await readings.PackAsync(None);
        Assert.Equal(
            ["history-2026-03.db", "history-2026-04.db"],
            Directory.GetFiles(place.Folder, "history-*.db").Select(Path.GetFileName).Order());
    }

    [Fact]
    public async Task A_worker_that_stands_by_sees_what_the_other_writes_and_packs()
    {
        using var other = place.OpenReadings(TemporaryStore.CellWith(2));
        await readings.AppendAsync(new[] { At(0, 0, 1) }, None);
        Assert.Single(await other.ReadAsync("s0", Begin, Begin.AddDays(1), 10, None));
        await readings.AppendAsync(new[] { At(0, 1_000, 2) }, None);
        await readings.PackAsync(None);
        await readings.AppendAsync(new[] { At(0, 2_000, 3) }, None);
        Assert.Equal([1.0, 2, 3], (await other.ReadAsync("s0", Begin, Begin.AddDays(1), 10, None)).Select(p => p.Value));

        // And takes over: what the first wrote is known, packed or not.
        await other.AppendAsync(new[] { At(0, 0, 9), At(0, 2_000, 3), At(0, 3_000, 4) }, None);
        await other.PackAsync(None);
        await readings.AppendAsync(new[] { At(0, 3_000, 4), At(0, 4_000, 5) }, None);
        Assert.Equal([1.0, 2, 3, 4, 5], (await readings.ReadAsync("s0", Begin, Begin.AddDays(1), 10, None)).Select(p => p.Value));
        Assert.Single(await readings.ReadQuarantinedAsync("s0", Begin, Begin.AddDays(1), 10, None));
    }

    private async Task NowAndThenAsync(Random random)
    {
        switch (random.Next(6))
        {
            case 0:
                await readings.PackAsync(None);
                break;
            case 1:
                readings.Dispose();
                readings = place.OpenReadings(TemporaryStore.CellWith(2));
                break;
            default:
                break;
        }
    }

    private static IEnumerable<SeriesAggregate> Expected(IEnumerable<TrustedReading> rows, long period) =>
        rows.GroupBy(r => r.Raw.EpochMilliseconds / period * period).OrderBy(g => g.Key).Select(g => new SeriesAggregate(
            g.Key, g.Count(), g.Min(r => r.Value), g.First(r => r.Value == g.Min(s => s.Value)).Raw.EpochMilliseconds,
            g.Max(r => r.Value), g.First(r => r.Value == g.Max(s => s.Value)).Raw.EpochMilliseconds,
            g.Last().Value, g.Last().Raw.EpochMilliseconds, g.Aggregate(0.0, (sum, r) => sum + r.Value)));

    private static TrustedReading Some(Random random, long time)
    {
        var raw = random.Next(-50, 50) / 10.0;
        var reading = new TrustedReading(new Reading(0, time, raw), raw, Trust.Accepted, TrustReason.None);
        return random.Next(10) switch
        {
            0 => reading with { Trust = Trust.Quarantined, Reason = TrustReason.OutOfRange },
            1 => reading with { Value = raw - 0.2, Trust = Trust.Corrected, Reason = TrustReason.Calibrated },
            _ => reading,
        };
    }

    private static TrustedReading At(int sensor, long milliseconds, double value) => new(
        new Reading(sensor, Begin.ToUnixTimeMilliseconds() + milliseconds, value), value, Trust.Accepted, TrustReason.None);
}
