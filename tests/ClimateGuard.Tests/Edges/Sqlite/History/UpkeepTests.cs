using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite.History;

/// <summary>Retention, pins, damage, backup: two months of readings, 10 s apart, with a peak in each.</summary>
public sealed class UpkeepTests : IDisposable
{
    private static readonly DateTimeOffset March = new(2026, 3, 30, 0, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset April = new(2026, 4, 1, 0, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset End = new(2026, 4, 2, 0, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();
    private SqliteReadings readings;

    public UpkeepTests()
    {
        readings = Open();
        var batch = Enumerable.Range(0, 25_920).Select(n => At(March.AddSeconds(n * 10), n == 777 ? 99 : n == 20_000 ? -9 : 20 + (n % 7 * 0.1))).ToArray();
        readings.AppendAsync(batch, None).AsTask().GetAwaiter().GetResult();
        readings.PackAsync(None).GetAwaiter().GetResult();
    }

    private string MarchPath => Path.Combine(place.Folder, "history-2026-03.db");

    public void Dispose()
    {
        readings.Dispose();
        place.Dispose();
    }

    [Fact]
    public async Task A_month_whose_making_was_cut_off_is_empty_and_neither_damaged_nor_in_the_way()
    {
        var cut = Path.Combine(place.Folder, "history-2026-02.db");
        FirstShape.Do(cut, "PRAGMA journal_mode = WAL");
        readings.Dispose();
        readings = Open();

        Assert.Empty(await RowsAsync(March.AddDays(-60), March));
        Assert.All(HistoryFiles.Check(place.Folder), file => Assert.Null(file.Damage));
        Assert.Equal((0, 0, 0), HistoryFiles.Info(place.Folder).Where(file => file.Path == cut).Select(file => (file.Rows, file.Minutes, file.Quarters)).Single());
        await readings.AppendAsync(new[] { At(March.AddDays(-30), 21) }, None);
        await readings.PackAsync(None);
        Assert.Equal(21, (await RowsAsync(March.AddDays(-60), March)).Single().Value);
        Assert.Equal(1, HistoryFiles.Info(place.Folder).Single(file => file.Path == cut).Rows);
    }

    [Fact]
    public async Task When_raw_readings_are_too_old_charts_come_from_minutes_and_then_from_quarters_and_then_the_month_is_gone()
    {
        foreach (var days in new[] { 30, 59 })
        {
            SetNow(April.AddDays(days));
            await readings.ClearAsync(None);
            Assert.Empty(await RowsAsync(March, April));
            Assert.Equal(8_640, (await RowsAsync(April, End)).Count);
            var points = await readings.ReadAsync("s0", March, April, 100, None);
            Assert.InRange(points.Count, 50, 100);
            Assert.Contains(new SeriesPoint(March.AddSeconds(7_770).ToUnixTimeMilliseconds(), 99), points);
            Assert.Equal(8_640, readings.Health().Rows);
        }

        Assert.Empty(await readings.AggregatesAsync("s0", March, April, HistoryLevel.Minute, None));
        Assert.Equal(192, (await readings.AggregatesAsync("s0", March, April, HistoryLevel.QuarterHour, None)).Count);
        SetNow(April.AddDays(90));
        await readings.ClearAsync(None);
        Assert.False(File.Exists(MarchPath));
        Assert.Empty(await readings.ReadAsync("s0", March, April, 100, None));
        Assert.Empty(place.Complaints);
    }

    [Fact]
    public async Task A_month_still_within_its_days_is_left_alone()
    {
        SetNow(April.AddDays(30).AddMilliseconds(-1));
        await readings.ClearAsync(None);
        Assert.Equal(17_280, (await RowsAsync(March, April)).Count);
    }

    [Fact]
    public async Task What_is_pinned_keeps_its_raw_readings()
    {
        readings.Pin(March.AddHours(2), March.AddHours(3), "serial S1");
        SetNow(April.AddDays(59));
        await readings.ClearAsync(None);

        Assert.Equal(360, (await RowsAsync(March.AddHours(2), March.AddHours(3))).Count);
        Assert.Empty(await RowsAsync(March.AddHours(20), April));
        Assert.Equal(360, (await readings.ReadAsync("s0", March.AddHours(2), March.AddHours(3), 1_000, None)).Count);
        Assert.Throws<ArgumentException>(() => readings.Pin(March, March, "x"));
        Assert.ThrowsAny<ArgumentException>(() => readings.Pin(March, April, " "));
    }

    [Fact]
    public async Task A_reading_older_than_raw_readings_are_kept_is_set_aside_and_changes_no_aggregate()
    {
        SetNow(April.AddDays(30));
        await readings.ClearAsync(None);
        var before = await readings.AggregatesAsync("s0", March, April, HistoryLevel.Minute, None);
        await readings.AppendAsync(new[] { At(March.AddSeconds(5), 500) }, None);
        await readings.PackAsync(None);

        Assert.Equal(before, await readings.AggregatesAsync("s0", March, April, HistoryLevel.Minute, None));
        Assert.Equal(TrustReason.TooOld, (await readings.ReadQuarantinedAsync("s0", March, April, 10, None)).Single().Reason);

        // Also by a worker that started since.
        readings.Dispose();
        readings = Open();
        await readings.AppendAsync(new[] { At(March.AddSeconds(6), 500) }, None);
        Assert.Equal(2, (await readings.ReadQuarantinedAsync("s0", March, April, 10, None)).Count);
    }

    [Fact]
    public async Task A_damaged_month_is_set_aside_by_the_check_of_the_older_ones_and_the_others_go_on()
    {
        readings.Dispose();
        Scribble(MarchPath);
        readings = Open();
        await readings.CheckOlderAsync(None);

        Assert.Equal(MarchPath + ".damaged-20260302T060000Z", Assert.Single(readings.Health().Damaged));
        Assert.Contains("damaged", Assert.Single(place.Complaints), StringComparison.Ordinal);
        Assert.Equal(8_640, (await RowsAsync(March, End)).Count);
        // What comes late for that month begins it anew.
        await readings.AppendAsync(new[] { At(March, 5) }, None);
        await readings.PackAsync(None);
        Assert.Equal(8_641, (await RowsAsync(March, End)).Count);
    }

    [Fact]
    public async Task A_block_whose_check_sum_is_wrong_sets_its_month_aside_when_it_is_read()
    {
        Do(MarchPath, "UPDATE block SET body = zeroblob(500) WHERE id = 3");
        Assert.Equal(8_640, (await RowsAsync(March, End)).Count);
        Assert.Single(readings.Health().Damaged);
        Assert.Equal(8_640, (await RowsAsync(April, End)).Count);
    }

    [Fact]
    public async Task The_newest_month_is_checked_at_the_start()
    {
        readings.Dispose();
        Scribble(Path.Combine(place.Folder, "history-2026-04.db"));
        readings = Open();
        Assert.Single(readings.Health().Damaged);
        Assert.Equal(17_280, (await RowsAsync(March, End)).Count);
    }

    [Fact]
    public async Task When_the_log_is_lost_each_month_still_knows_its_sensors()
    {
        readings.Dispose();
        File.Delete(place.ReadingsPath);
        readings = place.OpenReadings(TemporaryStore.CellOf("new", "s0"), Storage);
        Assert.Equal(25_920, (await RowsAsync(March, End)).Count);
        Assert.Empty(await readings.ReadAsync("new", March, End, 10, None));
        await readings.AppendAsync(new[] { At(March, 20) with { Raw = new Reading(1, March.ToUnixTimeMilliseconds(), 20) } }, None);
        Assert.Equal(25_920, (await RowsAsync(March, End)).Count);
    }

    [Fact]
    public async Task A_backup_made_while_readings_come_in_is_whole_and_opens()
    {
        await readings.AppendAsync(new[] { At(End, 1), At(March, 77) }, None);
        var target = Path.Combine(place.Folder, "backup");
        var files = HistoryFiles.Backup(place.Folder, target);

        Assert.Equal(["readings.db", "history-2026-03.db", "history-2026-04.db"], files.Select(Path.GetFileName));
        Assert.All(HistoryFiles.Check(target), file => Assert.Null(file.Damage));
        var refused = Assert.Throws<StoreUnavailableException>(() => HistoryFiles.Backup(place.Folder, target));
        Assert.Contains("Nothing was copied", refused.Message, StringComparison.Ordinal);
        using var copy = SqliteReadings.Open(place.Storage with { Folder = target }, TemporaryStore.CellWith(1), place.Clock, place);
        Assert.Equal(
            await readings.ReadAsync("s0", March, End.AddDays(1), 20_000, None), await copy.ReadAsync("s0", March, End.AddDays(1), 20_000, None));
        Assert.Equal(77, (await copy.ReadQuarantinedAsync("s0", March, End, 10, None)).Single().Raw);
    }

    [Fact]
    public void The_check_names_the_damaged_file_and_info_counts_what_each_holds()
    {
        var info = HistoryFiles.Info(place.Folder);
        Assert.Equal([0L, 17_280, 8_640], info.Select(file => file.Rows));
        Assert.Equal([0L, 192, 96], info.Select(file => file.Quarters));
        Assert.Equal((March.ToUnixTimeMilliseconds(), April.AddSeconds(-10).ToUnixTimeMilliseconds()), (info[1].First, info[1].Last));

        Do(MarchPath, "UPDATE block SET count = count + 1 WHERE id = 2");
        var damaged = Assert.Single(HistoryFiles.Check(place.Folder), file => file.Damage is not null);
        Assert.Equal(MarchPath, damaged.Path);
        Assert.Throws<StoreUnavailableException>(() => HistoryFiles.Check(Path.Combine(place.Folder, "nothing")));
    }

    [Theory]
    [InlineData(0, 10, null)]
    [InlineData(10, 9, null)]
    [InlineData(10, 20, 19)]
    [InlineData(10, 40_000, null)]
    public void Days_that_make_no_sense_are_refused(int raw, int minutes, int? quarters) =>
        Assert.NotEmpty(new HistoryRetention { RawDays = raw, MinuteDays = minutes, QuarterHourDays = quarters }.Problems());

    private SqliteStorage Storage => place.Storage with { Retention = new HistoryRetention { RawDays = 30, MinuteDays = 59, QuarterHourDays = 90 } };

    private static TrustedReading At(DateTimeOffset time, double value) =>
        new(new Reading(0, time.ToUnixTimeMilliseconds(), value), value, Trust.Accepted, TrustReason.None);

    private static void Scribble(string path)
    {
        using var file = File.OpenWrite(path);
        file.Position = 4_096;
        file.Write(Enumerable.Repeat((byte)0x5a, 8 * 4_096).ToArray());
    }

    private static void Do(string path, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private SqliteReadings Open() => place.OpenReadings(TemporaryStore.CellWith(1), Storage);

    private void SetNow(DateTimeOffset now) => place.Clock.SetUtcNow(now);

    private async Task<List<StoredReading>> RowsAsync(DateTimeOffset from, DateTimeOffset to)
    {
        var found = new List<StoredReading>();
        await foreach (var row in readings.RowsAsync("s0", from, to, None))
        {
            if (row.Trust != Trust.Quarantined)
            {
                found.Add(row);
            }
        }

        return found;
    }
}
