using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite.History;

/// <summary>A file of the first shape, as the release before wrote it, made here by its SQL.</summary>
public sealed class HistoryMoveTests : IDisposable
{
    private const string FirstShape = """
        CREATE TABLE sensor(id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE);
        CREATE TABLE reason(id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE);
        CREATE TABLE reading(
            sensor INTEGER NOT NULL, t INTEGER NOT NULL, value REAL NOT NULL, raw REAL, reason INTEGER,
            PRIMARY KEY(sensor, t)) WITHOUT ROWID;
        CREATE TABLE quarantine(
            sensor INTEGER NOT NULL, t INTEGER NOT NULL, raw REAL NOT NULL, reason INTEGER NOT NULL, arrived INTEGER NOT NULL,
            PRIMARY KEY(sensor, t, raw, reason)) WITHOUT ROWID;
        CREATE TABLE unreadable(id INTEGER PRIMARY KEY, arrived INTEGER NOT NULL, topic TEXT NOT NULL, reason TEXT NOT NULL, payload TEXT NOT NULL);
        CREATE TABLE tally(one INTEGER PRIMARY KEY CHECK(one = 1), readings INTEGER NOT NULL, quarantined INTEGER NOT NULL, dropped INTEGER NOT NULL);
        INSERT INTO tally VALUES(1, 300003, 1, 0);
        INSERT INTO sensor VALUES(7, 's0'), (3, 's1');
        INSERT INTO reason VALUES(1, 'None'), (2, 'Calibrated'), (3, 'OutOfRange'), (4, 'Sentinel'), (5, 'FromTheFuture'), (6, 'Retained'), (7, 'Duplicate');
        WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 299999)
        INSERT INTO reading SELECT 7, 1772431200000 + i * 10000, 20 + (i % 977) * 0.001, NULL, NULL FROM n;
        INSERT INTO reading VALUES(3, 1772431200000, 20.1, 20.3, 2), (3, 1772431200001, -0.0, NULL, NULL), (3, 1772431200002, 1e-310, NULL, NULL);
        INSERT INTO quarantine VALUES(3, 1772431200000, 99, 3, 1772431200500);
        INSERT INTO unreadable VALUES(1, 1772431200000, 'a/b', 'no number', 'xyz');
        PRAGMA user_version = 1;
        """;

    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();

    public HistoryMoveTests()
    {
        Directory.CreateDirectory(place.Folder);
        Do(FirstShape);
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
        Do("""
            CREATE TABLE reading(sensor INTEGER NOT NULL, t INTEGER NOT NULL, value REAL NOT NULL, raw REAL, reason INTEGER, PRIMARY KEY(sensor, t)) WITHOUT ROWID;
            UPDATE moving SET sensor = -1, t = 0;
            WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 299999)
            INSERT INTO reading SELECT 7, 1772431200000 + i * 10000, 20 + (i % 977) * 0.001, NULL, NULL FROM n;
            """);
        using var after = place.OpenReadings(TemporaryStore.CellWith(2));
        await AssertAllThereAsync(after);
    }

    private static async Task AssertAllThereAsync(SqliteReadings readings)
    {
        var count = 0;
        await foreach (var row in readings.RowsAsync("s0", Begin, Begin.AddDays(100), None))
        {
            Assert.Equal(Begin.ToUnixTimeMilliseconds() + (count * 10_000L), row.EpochMilliseconds);
            Assert.Equal(20 + (count % 977 * 0.001), row.Value);
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

    private void Do(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={place.ReadingsPath};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
