using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using CsCheck;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class SqliteReadingsTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();
    private readonly SqliteReadings readings;

    public SqliteReadingsTests() => readings = place.OpenReadings(TemporaryStore.CellWith(4));

    public void Dispose()
    {
        readings.Dispose();
        place.Dispose();
    }

    [Fact]
    public async Task A_second_value_of_the_same_moment_is_set_aside_as_a_duplicate_and_the_first_stays()
    {
        await readings.AppendAsync(new[] { At(0, 0, 20), At(0, 0, 21) }, None);
        await readings.AppendAsync(new[] { At(0, 0, 22), At(0, 0, 21) }, None);

        Assert.Equal([20.0], await ValuesAsync());
        Assert.Equal(
            [(21.0, TrustReason.Duplicate), (22.0, TrustReason.Duplicate)],
            (await readings.ReadQuarantinedAsync("s0", Begin, Begin.AddDays(1), 10, None)).Select(row => (row.Raw, row.Reason)));
        Assert.Equal((1, 2), (readings.Health().Rows, readings.Health().Quarantined));
    }

    [Fact]
    public async Task Of_conflicting_values_the_first_is_in_the_series_and_every_other_is_set_aside()
    {
        var run = 0;
        await Gen.Select(Gen.Int[1, 40], Gen.Int[1, 9], Gen.Int[0, 1_000_000]).SampleAsync(
            async (count, batchSize, seed) =>
            {
                var random = new Random(seed);
                var day = Interlocked.Increment(ref run) * 86_400_000L;
                var sent = Enumerable.Range(0, count).Select(_ => At(0, day + random.Next(5), random.Next(4))).ToArray();
                foreach (var batch in sent.Chunk(batchSize))
                {
                    await readings.AppendAsync(batch, None);
                }

                var from = Begin.AddMilliseconds(day);
                var stored = await readings.ReadAsync("s0", from, from.AddDays(1), 100, None);
                var aside = await readings.ReadQuarantinedAsync("s0", from, from.AddDays(1), 100, None);

                Assert.Equal(
                    sent.GroupBy(r => r.Raw.EpochMilliseconds).OrderBy(g => g.Key).Select(g => new SeriesPoint(g.Key, g.First().Value)), stored);
                Assert.Equal(
                    sent.Select(r => (r.Raw.EpochMilliseconds, r.Value)).Distinct().Order(),
                    stored.Select(p => (p.EpochMilliseconds, p.Value)).Concat(aside.Select(r => (r.EpochMilliseconds, r.Raw))).Order());
            },
            iter: 100,
            threads: 1);
    }

    [Fact]
    public async Task A_corrected_reading_keeps_its_raw_value_and_a_new_calibration_makes_no_conflict_of_a_second_delivery()
    {
        var corrected = At(0, 0, 20.3) with { Value = 20.1, Trust = Trust.Corrected, Reason = TrustReason.Calibrated };
        await readings.AppendAsync(new[] { corrected }, None);
        await readings.AppendAsync(new[] { corrected with { Value = 20.2 }, At(0, 0, 20.3) }, None);

        Assert.Equal([20.1], await ValuesAsync());
        Assert.Empty(await readings.ReadQuarantinedAsync("s0", Begin, Begin.AddDays(1), 10, None));
        Assert.Equal(
            [new CorrectedReading(Begin.ToUnixTimeMilliseconds(), 20.3, 20.1, TrustReason.Calibrated)],
            await readings.ReadCorrectedAsync("s0", Begin, Begin.AddDays(1), 10, None));
    }

    [Fact]
    public async Task A_reading_whose_clock_was_ahead_stands_at_its_corrected_time_and_keeps_its_stamp()
    {
        var ahead = At(0, 5_000 + 420_000, 20.3) with { Trust = Trust.Corrected, Reason = TrustReason.ClockOffset, ClockAheadMilliseconds = 420_000 };
        await readings.AppendAsync(new[] { ahead }, None);
        await readings.AppendAsync(new[] { ahead }, None);

        var row = Assert.Single(await readings.RowsAsync("s0", Begin, Begin.AddDays(1), None).ToListAsync(None));
        Assert.Equal(Begin.AddSeconds(5).ToUnixTimeMilliseconds(), row.EpochMilliseconds);
        Assert.Equal(Begin.AddSeconds(425).ToUnixTimeMilliseconds(), row.StampMilliseconds);
        Assert.Equal((20.3, Trust.Corrected, TrustReason.ClockOffset), (row.Raw, row.Trust, row.Reason));
    }

    [Fact]
    public async Task A_second_delivery_that_was_noted_as_such_leaves_no_trace_and_another_value_does()
    {
        var second = At(0, 0, 20.3) with { Trust = Trust.Quarantined, Reason = TrustReason.Duplicate };
        await readings.AppendAsync(new[] { At(0, 0, 20.3), second }, None);
        Assert.Empty(await readings.ReadQuarantinedAsync("s0", Begin, Begin.AddDays(1), 10, None));

        await readings.AppendAsync(new[] { second with { Raw = second.Raw with { Value = 20.4 }, Value = 20.4 } }, None);
        Assert.Equal([20.4], (await readings.ReadQuarantinedAsync("s0", Begin, Begin.AddDays(1), 10, None)).Select(r => r.Raw));
    }

    [Fact]
    public async Task A_changed_cell_brings_new_sensors_and_new_numbers_without_a_restart()
    {
        await readings.AppendAsync(new[] { At(0, 0, 1) }, None);
        readings.UseCell(TemporaryStore.CellOf("added", "s0"));
        await readings.AppendAsync(new[] { At(0, 0, 7), At(1, 1, 2) }, None);

        Assert.Equal([1.0, 2.0], await ValuesAsync());
        Assert.Equal([7.0], await ValuesAsync("added"));
        await Assert.ThrowsAsync<ArgumentException>(async () => await readings.AppendAsync(new[] { At(2, 2, 3) }, None));
    }

    [Fact]
    public async Task Unreadable_messages_are_bounded_the_oldest_go_first_and_are_counted()
    {
        readings.Dispose();
        var storage = place.Storage with { UnreadableKept = 3 };
        using (var small = place.OpenReadings(TemporaryStore.CellWith(1), storage))
        {
            await small.KeepUnreadableAsync([.. Enumerable.Range(0, 5).Select(n => (Begin.AddSeconds(n), Message(n)))], None);
            await small.KeepUnreadableAsync([(Begin.AddSeconds(5), Message(5))], None);

            Assert.Equal(
                [(Begin.AddSeconds(5), Message(5)), (Begin.AddSeconds(4), Message(4)), (Begin.AddSeconds(3), Message(3))],
                await small.NewestUnreadableAsync(10, None));
            Assert.Equal(3, small.Health().UnreadableDropped);
        }

        using var again = place.OpenReadings(TemporaryStore.CellWith(1), storage);
        Assert.Equal(3, again.Health().UnreadableDropped);
    }

    [Fact]
    public async Task Health_counts_rows_once_and_knows_size_free_space_and_last_commit()
    {
        Assert.Null(readings.Health().LastCommit);
        await readings.AppendAsync(new[] { At(0, 0, 1), At(0, 0, 1), At(1, 0, 1) }, None);
        place.Clock.Advance(TimeSpan.FromSeconds(5));
        await readings.AppendAsync(new[] { At(1, 0, 1) }, None);

        var health = readings.Health();
        Assert.Equal(2, health.Rows);
        Assert.Equal(Begin.AddSeconds(5), health.LastCommit);
        Assert.InRange(health.Bytes, 4_096, 1_000_000);
        Assert.True(health.FreeBytes > 0);
    }

    [Fact]
    public async Task A_batch_that_fails_in_the_middle_leaves_nothing_of_itself_and_the_next_one_goes_in()
    {
        var aside = At(0, 1, 13) with { Trust = Trust.Quarantined, Reason = TrustReason.OutOfRange };
        Outside("CREATE TRIGGER stumble BEFORE INSERT ON quarantine WHEN new.raw = 13 BEGIN SELECT RAISE(ABORT, 'stumbled'); END");
        await Assert.ThrowsAsync<StoreUnavailableException>(
            async () => await readings.AppendAsync(new[] { At(0, 0, 1), aside, At(0, 2, 3) }, None));
        Assert.Empty(await ValuesAsync());

        Outside("DROP TRIGGER stumble");
        await readings.AppendAsync(new[] { At(0, 0, 1), aside, At(0, 2, 3) }, None);
        Assert.Equal([1.0, 3.0], await ValuesAsync());
        Assert.Equal((2, 1), (readings.Health().Rows, readings.Health().Quarantined));
    }

    [Fact]
    public async Task Readers_are_not_held_up_by_a_writer_in_its_transaction()
    {
        await readings.AppendAsync(new[] { At(0, 0, 1) }, None);
        using var other = new SqliteConnection($"Data Source={place.ReadingsPath};Pooling=False");
        other.Open();
        using var transaction = other.BeginTransaction(deferred: false);
        Assert.Equal([1.0], await ValuesAsync());
    }

    [Fact]
    public async Task A_burst_of_readings_costs_no_garbage_for_each_reading()
    {
        var batch = Enumerable.Range(0, 1_000).Select(n => At(n % 4, n, n)).ToArray();
        // Room grows by doubling: after 750 readings of each of the four there is enough for the next 250.
        for (var round = 1; round <= 3; round++)
        {
            await readings.AppendAsync(batch, None);
            for (var n = 0; n < batch.Length; n++)
            {
                batch[n] = At(n % 4, (round * 10_000) + n, n);
            }
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        await readings.AppendAsync(batch, None);
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;

        Assert.True(allocated < 1_000, $"{allocated} bytes for 1000 readings");
    }

    private void Outside(string sql)
    {
        using var other = new SqliteConnection($"Data Source={place.ReadingsPath};Pooling=False");
        other.Open();
        using var command = other.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private static UnreadableMessage Message(int n) => new($"topic/{n}", "no number", $"payload {n}");

    private static TrustedReading At(int sensor, long milliseconds, double value) => new(
        new Reading(sensor, Begin.ToUnixTimeMilliseconds() + milliseconds, value), value, Trust.Accepted, TrustReason.None);

    private async Task<IEnumerable<double>> ValuesAsync(string sensor = "s0") =>
        (await readings.ReadAsync(sensor, Begin, Begin.AddDays(1), 100, None)).Select(point => point.Value);
}
