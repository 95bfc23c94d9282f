using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Support;

/// <summary>A <c>readings.db</c> of the first shape, as the release before wrote it, made here by its SQL.</summary>
public static class FirstShape
{
    /// <summary>Event time of the first reading, in ms since 1970.</summary>
    public const long Begin = 1_772_431_200_000;

    private const string Tables = """
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
        INSERT INTO sensor VALUES(7, 's0'), (3, 's1');
        INSERT INTO reason VALUES(1, 'None'), (2, 'Calibrated'), (3, 'OutOfRange'), (4, 'Sentinel'), (5, 'FromTheFuture'), (6, 'Retained'), (7, 'Duplicate');
        PRAGMA user_version = 1;
        """;

    /// <summary>Makes it, with readings of s0 every 10 s; the value of each says its number.</summary>
    public static void Make(string path, int readings)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        Do(path, $"{Tables} INSERT INTO tally VALUES(1, {readings}, 0, 0); {Insert(readings)}");
    }

    /// <summary>The SQL that puts the readings of s0 in.</summary>
    public static string Insert(int readings) => $"""
        WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < {readings - 1})
        INSERT INTO reading SELECT 7, {Begin} + i * 10000, 20 + (i % 977) * 0.001, NULL, NULL FROM n;
        """;

    /// <summary>The value of a reading of s0 by its number.</summary>
    public static double Value(int number) => 20 + (number % 977 * 0.001);

    public static void Do(string path, string sql)
    {
        using var connection = Open(path);
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    /// <summary>Event time up to which s0 is noted as moved; before the first is noted 0, and the greatest number when the old table is gone.</summary>
    public static long MovedUpTo(string path)
    {
        using var connection = Open(path);
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) + 2 * (SELECT count(*) FROM sqlite_schema WHERE name = 'reading') FROM sqlite_schema WHERE name = 'moving'";
        switch ((long)command.ExecuteScalar()!)
        {
            case 1:
                return long.MaxValue;
            case 2:
                return 0;
            default:
                command.CommandText = "SELECT t FROM moving";
                return (long)command.ExecuteScalar()!;
        }
    }

    private static SqliteConnection Open(string path)
    {
        var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        return connection;
    }
}
