using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Sqlite.History;

/// <summary>A file of the first shape, as the release before wrote it, is moved into the months.</summary>
public sealed class HistoryMoveTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();

    public HistoryMoveTests()
    {
        FirstShape.Make(place.ReadingsPath, 300_000);
        FirstShape.Do(place.ReadingsPath, """
            UPDATE tally SET readings = 300003, quarantined = 1;
            INSERT INTO reading VALUES(3, 1772431200000, 20.1, 20.3, 2), (3, 1772431200001, -0.0, NULL, NULL), (3, 1772431200002, 1e-310, NULL, NULL);
            INSERT INTO quarantine VALUES(3, 1772431200000, 99, 3, 1772431200500);
            INSERT INTO unreadable VALUES(1, 1772431200000, 'a/b', 'no number', 'xyz');
            """);
    }

    public void Dispose() => place.Dispose();

    [Fact]
    public async Task Every_row_of_the_release_before_is_there_under_its_sensor_with_its_judgement()
    {
        using var readings = place.OpenReadings(TemporaryStore.CellWith(2));
        await AssertAllThereAsync(readings);
        Assert.Equal("no number", (await readings.NewestUnreadableAsync(10, None)).Single().Message.Reason);
        Assert.Equal((300_003, 1), (readings.Health().Rows, readings.Health().Quarantined));

        // A second delivery still finds its place taken.
        var again = new TrustedReading(new Reading(0, Begin.ToUnixTimeMilliseconds(), 20), 20, Trust.Accepted, TrustReason.None);
        await readings.AppendAsync(new[] { again }, None);
        Assert.Equal(300_003, readings.Health().Rows);
    }

    [Fact]
    public async Task A_move_cut_off_after_a_file_was_written_and_before_it_was_noted_is_done_again_without_a_row_twice()
    {
        using (var readings = place.OpenReadings(TemporaryStore.CellWith(2)))
        {
            await AssertAllThereAsync(readings);
        }

        // The old table once more, with nothing noted: all of it was packed before.
        FirstShape.Do(place.ReadingsPath, $"""
            CREATE TABLE reading(sensor INTEGER NOT NULL, t INTEGER NOT NULL, value REAL NOT NULL, raw REAL, reason INTEGER, PRIMARY KEY(sensor, t)) WITHOUT ROWID;
            UPDATE moving SET sensor = -1, t = 0;
            {FirstShape.Insert(300_000)}
            """);
        using var after = place.OpenReadings(TemporaryStore.CellWith(2));
        await AssertAllThereAsync(after);
    }

    [Fact]
    public void Before_the_move_the_file_is_sound_and_asked_what_it_holds_says_that_it_is_of_an_earlier_release()
    {
        Assert.Null(HistoryFiles.Check(place.Folder).Single().Damage);
        Assert.Contains(
            "of an earlier release: start the worker once",
            Assert.Throws<StoreUnavailableException>(() => HistoryFiles.Info(place.Folder)).Message, StringComparison.Ordinal);
    }

    private static async Task AssertAllThereAsync(SqliteReadings readings)
    {
        var count = 0;
        await foreach (var row in readings.RowsAsync("s0", Begin, Begin.AddDays(100), None))
        {
            Assert.Equal(Begin.ToUnixTimeMilliseconds() + (count * 10_000L), row.EpochMilliseconds);
            Assert.Equal(FirstShape.Value(count), row.Value);
            count++;
        }

        Assert.Equal(300_000, count);
        var rows = new List<StoredReading>();
        await foreach (var row in readings.RowsAsync("s1", Begin, Begin.AddDays(1), None))
        {
            rows.Add(row);
        }

        var time = Begin.ToUnixTimeMilliseconds();
        Assert.Equal(
            [
                new StoredReading(time, 20.3, 20.1, Trust.Corrected, TrustReason.Calibrated),
                new StoredReading(time, 99, 99, Trust.Quarantined, TrustReason.OutOfRange),
                new StoredReading(time + 1, -0.0, -0.0, Trust.Accepted, TrustReason.None),
                new StoredReading(time + 2, 1e-310, 1e-310, Trust.Accepted, TrustReason.None),
            ],
            rows);
        var minute = (await readings.AggregatesAsync("s0", Begin, Begin.AddMinutes(1), HistoryLevel.Minute, None)).Single();
        Assert.Equal((6, 20.0, 20.005), (minute.Count, minute.Minimum, minute.Last));
    }
}
