using ClimateGuard.Plant;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Support;

/// <summary>What every store of readings must do, whatever lies beneath. A store has its own class that derives from this one.</summary>
public abstract class ReadingStoreContract : IAsyncLifetime
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private IReadingStore store = null!;

    /// <summary>Opens an empty store for this cell.</summary>
    protected abstract Task<IReadingStore> OpenAsync(Cell cell);

    /// <summary>Closes it, opens it again as after a restart.</summary>
    protected abstract Task<IReadingStore> ReopenAsync(Cell cell);

    /// <summary>The readings of a sensor that were set aside, as (event time, raw value, reason), in time order.</summary>
    protected abstract Task<IReadOnlyList<(long EpochMilliseconds, double Raw, TrustReason Reason)>> SetAsideAsync(string sensorId);

    /// <summary>The unreadable messages kept, newest first.</summary>
    protected abstract Task<IReadOnlyList<UnreadableMessage>> UnreadableAsync();

    protected virtual ValueTask CloseAsync() => ValueTask.CompletedTask;

    public async ValueTask InitializeAsync() => store = await OpenAsync(TemporaryStore.CellWith(4));

    public async ValueTask DisposeAsync()
    {
        await CloseAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task What_was_written_is_read_back_in_time_order_with_its_exact_value()
    {
        await store.AppendAsync(new[] { At(1, 2_000, 20.1), At(1, 0, 19.999999999999996), At(0, 1_000, -5), At(1, 1_000, 1e-300) }, None);

        var points = await ReadAsync("s1", 100);

        Assert.Equal([Point(0, 19.999999999999996), Point(1_000, 1e-300), Point(2_000, 20.1)], points);
    }

    [Fact]
    public async Task A_window_holds_its_begin_and_not_its_end()
    {
        await store.AppendAsync(new[] { At(0, 0, 1), At(0, 1, 2), At(0, 2, 3) }, None);

        Assert.Equal([Point(0, 1), Point(1, 2)], await store.ReadAsync("s0", Begin, Begin.AddMilliseconds(2), 10, None));
        // Between two milliseconds: the next one counts, at both ends.
        Assert.Equal(
            [Point(1, 2), Point(2, 3)],
            await store.ReadAsync("s0", Begin.AddTicks(1), Begin.AddMilliseconds(2).AddTicks(1), 10, None));
    }

    [Fact]
    public async Task A_sensor_without_readings_has_an_empty_series() => Assert.Empty(await ReadAsync("s3", 100));

    [Fact]
    public async Task An_empty_batch_is_no_error()
    {
        await store.AppendAsync(ReadOnlyMemory<TrustedReading>.Empty, None);
        await store.KeepUnreadableAsync([], None);
        Assert.Empty(await ReadAsync("s0", 100));
    }

    [Fact]
    public async Task A_second_delivery_changes_nothing_and_is_not_set_aside()
    {
        TrustedReading[] batch = [At(0, 0, 20), At(0, 1_000, 20.5), At(0, 0, 20)];
        await store.AppendAsync(batch, None);
        await store.AppendAsync(batch, None);

        Assert.Equal([Point(0, 20), Point(1_000, 20.5)], await ReadAsync("s0", 100));
        Assert.Empty(await SetAsideAsync("s0"));
    }

    [Fact]
    public async Task A_corrected_reading_is_read_with_its_corrected_value()
    {
        await store.AppendAsync(new[] { At(0, 0, 20.3) with { Value = 20.1, Trust = Trust.Corrected, Reason = TrustReason.Calibrated } }, None);
        Assert.Equal([Point(0, 20.1)], await ReadAsync("s0", 100));
    }

    [Fact]
    public async Task A_quarantined_reading_is_kept_with_its_raw_value_and_reason_and_is_in_no_series()
    {
        TrustedReading[] batch =
        [
            At(2, 0, 20),
            At(2, 1_000, -127) with { Trust = Trust.Quarantined, Reason = TrustReason.Sentinel },
            At(2, 2_000, 99) with { Trust = Trust.Quarantined, Reason = TrustReason.OutOfRange },
        ];
        await store.AppendAsync(batch, None);
        await store.AppendAsync(batch, None);

        Assert.Equal([Point(0, 20)], await ReadAsync("s2", 100));
        Assert.Equal([(T(1_000), -127.0, TrustReason.Sentinel), (T(2_000), 99.0, TrustReason.OutOfRange)], await SetAsideAsync("s2"));
    }

    [Fact]
    public async Task A_good_reading_may_follow_a_quarantined_one_of_the_same_moment()
    {
        await store.AppendAsync(new[] { At(0, 0, -127) with { Trust = Trust.Quarantined, Reason = TrustReason.Sentinel } }, None);
        await store.AppendAsync(new[] { At(0, 0, 20) }, None);
        Assert.Equal([Point(0, 20)], await ReadAsync("s0", 100));
    }

    [Fact]
    public async Task What_was_written_is_there_after_a_restart()
    {
        await store.AppendAsync(new[] { At(0, 0, 20), At(0, 1, 99) with { Trust = Trust.Quarantined, Reason = TrustReason.OutOfRange } }, None);
        await store.KeepUnreadableAsync([(Begin, new UnreadableMessage("a/b", "no number", "xyz"))], None);
        store = await ReopenAsync(TemporaryStore.CellWith(4));

        Assert.Equal([Point(0, 20)], await ReadAsync("s0", 100));
        Assert.Single(await SetAsideAsync("s0"));
        Assert.Equal([new UnreadableMessage("a/b", "no number", "xyz")], await UnreadableAsync());
    }

    [Fact]
    public async Task A_sensor_keeps_its_series_when_the_plant_file_puts_it_elsewhere()
    {
        await store.AppendAsync(new[] { At(1, 0, 20) }, None);
        store = await ReopenAsync(TemporaryStore.CellOf("new", "s3", "s1"));
        await store.AppendAsync(new[] { At(2, 1_000, 21) }, None);
        Assert.Equal([Point(0, 20), Point(1_000, 21)], await ReadAsync("s1", 100));
    }

    [Fact]
    public async Task A_sensor_that_left_the_plant_file_keeps_its_history()
    {
        await store.AppendAsync(new[] { At(1, 0, 20) }, None);
        store = await ReopenAsync(TemporaryStore.CellOf("s0"));
        Assert.Equal([Point(0, 20)], await ReadAsync("s1", 100));
    }

    [Fact]
    public async Task Every_row_is_listed_with_its_raw_value_and_the_judgement_on_it()
    {
        TrustedReading[] batch =
        [
            At(0, 0, 20),
            At(0, 0, 99) with { Trust = Trust.Quarantined, Reason = TrustReason.OutOfRange },
            At(0, 1_000, 20.3) with { Value = 20.1, Trust = Trust.Corrected, Reason = TrustReason.Calibrated },
            At(0, 3_000, 21),
        ];
        await store.AppendAsync(batch, None);

        Assert.Equal(
            [
                new StoredReading(T(0), 20, 20, Trust.Accepted, TrustReason.None),
                new StoredReading(T(0), 99, 99, Trust.Quarantined, TrustReason.OutOfRange),
                new StoredReading(T(1_000), 20.3, 20.1, Trust.Corrected, TrustReason.Calibrated),
            ],
            await RowsAsync("s0", 3_000));
    }

    [Fact]
    public async Task A_reading_whose_clock_was_ahead_stands_at_its_corrected_time_and_keeps_its_stamp_as_sent()
    {
        TrustedReading Ahead(long milliseconds, double value) => At(0, milliseconds + 420_000, value) with { ClockAheadMilliseconds = 420_000 };
        TrustedReading[] batch =
        [
            At(0, 4_000, 20.1),
            Ahead(5_000, 20.3) with { Trust = Trust.Corrected, Reason = TrustReason.ClockOffset },
            Ahead(6_000, -127) with { Trust = Trust.Quarantined, Reason = TrustReason.Sentinel },
        ];
        await store.AppendAsync(batch, None);
        store = await ReopenAsync(TemporaryStore.CellWith(4));
        // A second delivery, and another value for a moment that is taken.
        await store.AppendAsync(batch, None);
        await store.AppendAsync(new[] { Ahead(5_000, 20.4) with { Trust = Trust.Corrected, Reason = TrustReason.ClockOffset } }, None);

        Assert.Equal(
            [
                new StoredReading(T(4_000), 20.1, 20.1, Trust.Accepted, TrustReason.None),
                new StoredReading(T(5_000), 20.3, 20.3, Trust.Corrected, TrustReason.ClockOffset) { StampMilliseconds = T(425_000) },
                new StoredReading(T(5_000), 20.4, 20.4, Trust.Quarantined, TrustReason.Duplicate) { StampMilliseconds = T(425_000) },
                new StoredReading(T(6_000), -127, -127, Trust.Quarantined, TrustReason.Sentinel) { StampMilliseconds = T(426_000) },
            ],
            await RowsAsync("s0", 10_000));
    }

    [Fact]
    public async Task A_long_list_of_rows_has_no_gap_and_nothing_twice()
    {
        var batch = Enumerable.Range(0, 25_000).Select(n => At(0, n, n)).ToArray();
        await store.AppendAsync(batch, None);

        Assert.Equal(batch.Select(r => r.Raw.EpochMilliseconds), (await RowsAsync("s0", 86_400_000)).Select(row => row.EpochMilliseconds));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(20_001)]
    public async Task Points_outside_2_to_20_000_are_refused(int points) =>
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(async () => await ReadAsync("s0", points));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public async Task A_window_that_ends_before_it_begins_is_refused(int milliseconds) =>
        await Assert.ThrowsAsync<ArgumentException>(
            async () => await store.ReadAsync("s0", Begin, Begin.AddMilliseconds(milliseconds), 10, None));

    [Fact]
    public async Task An_unknown_sensor_is_refused_with_the_nearest_name()
    {
        await store.AppendAsync(new[] { At(2, 0, 1) }, None);
        var fault = await Assert.ThrowsAsync<ArgumentException>(async () => await ReadAsync("S2", 10));
        Assert.Contains("did you mean s2", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(4)]
    [InlineData(-1)]
    public async Task A_reading_of_a_sensor_the_cell_has_not_refuses_the_whole_batch(int sensor)
    {
        await Assert.ThrowsAsync<ArgumentException>(async () => await store.AppendAsync(new[] { At(0, 0, 1), At(sensor, 0, 1) }, None));
        Assert.Empty(await ReadAsync("s0", 10));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public async Task A_reading_without_a_finite_number_refuses_the_whole_batch(double value)
    {
        await Assert.ThrowsAsync<ArgumentException>(async () => await store.AppendAsync(new[] { At(0, 0, 1), At(0, 1, value) }, None));
        Assert.Empty(await ReadAsync("s0", 10));
    }

    [Fact]
    public async Task A_cancelled_read_ends_as_cancelled()
    {
        using var source = new CancellationTokenSource();
        await source.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(
            async () => await store.ReadAsync("s0", Begin, Begin.AddDays(1), 10, source.Token));
    }

    [Fact]
    public async Task A_long_series_keeps_its_peaks_when_it_must_be_thinned()
    {
        var batch = Enumerable.Range(0, 5_000).Select(n => At(0, n * 1_000L, n == 3_333 ? 99 : n == 1_234 ? -40 : 20 + (n % 7 * 0.1))).ToArray();
        await store.AppendAsync(batch, None);

        var points = await ReadAsync("s0", 50);

        Assert.InRange(points.Count, 2, 50);
        Assert.Contains(Point(3_333_000, 99), points);
        Assert.Contains(Point(1_234_000, -40), points);
    }

    [Fact]
    public async Task Thinning_keeps_the_least_and_the_greatest_never_exceeds_the_points_and_stays_in_time_order()
    {
        var run = 0;
        await Gen.Select(Gen.Int[1, 400], Gen.Int[2, 60], Gen.Int[0, 1_000_000]).SampleAsync(
            async (count, points, seed) =>
            {
                var begin = Begin.AddDays(Interlocked.Increment(ref run));
                var random = new Random(seed);
                var batch = new TrustedReading[count];
                var time = begin.ToUnixTimeMilliseconds();
                for (var n = 0; n < count; n++)
                {
                    time += random.Next(1, random.Next(2, 5_000));
                    batch[n] = Reading(0, time, random.Next(-50, 50) / 10.0);
                }

                await store.AppendAsync(batch, None);
                var kept = await store.ReadAsync("s0", begin, begin.AddDays(1), points, None);

                Assert.True(kept.Count <= points, $"{kept.Count} points, {points} asked for");
                Assert.Equal(batch.Min(r => r.Value), kept.Min(p => p.Value));
                Assert.Equal(batch.Max(r => r.Value), kept.Max(p => p.Value));
                Assert.All(kept.Zip(kept.Skip(1)), pair => Assert.True(pair.First.EpochMilliseconds < pair.Second.EpochMilliseconds));
                Assert.Subset(batch.Select(r => new SeriesPoint(r.Raw.EpochMilliseconds, r.Value)).ToHashSet(), kept.ToHashSet());
            },
            iter: 100,
            threads: 1);
    }

    [Fact]
    public async Task Any_order_of_any_batches_any_number_of_times_gives_the_same_rows()
    {
        var run = 0;
        await Gen.Select(Gen.Int[1, 60], Gen.Int[1, 20], Gen.Int[0, 1_000_000]).SampleAsync(
            async (count, batchSize, seed) =>
            {
                var begin = Begin.AddDays(Interlocked.Increment(ref run));
                var random = new Random(seed);
                var given = Enumerable.Range(0, count)
                    .Select(n => Reading(random.Next(4), begin.ToUnixTimeMilliseconds() + n, random.Next(-500, 500) / 10.0)).ToArray();
                // Each reading once in a random order, then as many again at random: late, early, twice, in another batch.
                var sent = given.OrderBy(_ => random.Next()).Concat(given.Select(_ => given[random.Next(count)])).ToArray();
                foreach (var batch in sent.Chunk(batchSize))
                {
                    await store.AppendAsync(batch, None);
                }

                for (var sensor = 0; sensor < 4; sensor++)
                {
                    var expected = given.Where(r => r.Raw.Sensor == sensor).Select(r => new SeriesPoint(r.Raw.EpochMilliseconds, r.Value));
                    Assert.Equal(expected, await store.ReadAsync($"s{sensor}", begin, begin.AddDays(1), 1_000, None));
                    Assert.Empty(await SetAsideAsync($"s{sensor}"));
                }
            },
            iter: 50,
            threads: 1);
    }

    protected static long T(long milliseconds) => Begin.ToUnixTimeMilliseconds() + milliseconds;

    protected static SeriesPoint Point(long milliseconds, double value) => new(T(milliseconds), value);

    protected static TrustedReading At(int sensor, long milliseconds, double value) => Reading(sensor, T(milliseconds), value);

    private static TrustedReading Reading(int sensor, long time, double value) =>
        new(new Reading(sensor, time, value), value, Trust.Accepted, TrustReason.None);

    private ValueTask<List<StoredReading>> RowsAsync(string sensor, long milliseconds) =>
        store.RowsAsync(sensor, Begin, Begin.AddMilliseconds(milliseconds), None).ToListAsync(None);

    private ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(string sensor, int points) =>
        store.ReadAsync(sensor, Begin.AddDays(-1), Begin.AddDays(1), points, None);
}
