using System.Globalization;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The shape of <c>history-YYYY-MM.db</c>: the readings of one month (UTC) and their aggregates, packed by sensor.</summary>
/// <remarks>
/// A block belongs to one sensor and one level; blocks of a level never overlap. The index says everything about a block but its content, so
/// that looking for a window or counting reads no block. The names of sensors and reasons stand here too: a month can be read alone.
/// </remarks>
internal static class SegmentSchema
{
    private const string Prefix = "history-";

    private static readonly SqliteSchema Schema = new(
        """
        CREATE TABLE sensor(id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE);
        CREATE TABLE reason(id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE);
        CREATE TABLE block(
            id INTEGER PRIMARY KEY, level INTEGER NOT NULL, sensor INTEGER NOT NULL,
            t0 INTEGER NOT NULL, t1 INTEGER NOT NULL, count INTEGER NOT NULL, body BLOB NOT NULL);
        CREATE UNIQUE INDEX block_place ON block(level, sensor, t0, t1, count);
        CREATE TABLE fact(one INTEGER PRIMARY KEY CHECK(one = 1), gone INTEGER NOT NULL);
        INSERT INTO fact VALUES(1, 0);
        """);

    /// <summary>The file of a month.</summary>
    public static SqliteFileKind Kind(SegmentMonth month) => new(FileName(month), Schema, FlushEachCommit: true);

    public static string FileName(SegmentMonth month) =>
        string.Create(CultureInfo.InvariantCulture, $"{Prefix}{month.Year:0000}-{month.Month:00}.db");

    /// <summary>The months that lie in a folder, oldest first.</summary>
    public static IReadOnlyList<SegmentMonth> In(string folder)
    {
        var found = new List<SegmentMonth>();
        foreach (var path in Directory.EnumerateFiles(folder, Prefix + "*.db"))
        {
            var name = Path.GetFileName(path.AsSpan());
            if (name.Length == 18 && int.TryParse(name[8..12], NumberStyles.None, CultureInfo.InvariantCulture, out var year)
                && int.TryParse(name[13..15], NumberStyles.None, CultureInfo.InvariantCulture, out var month)
                && year is >= 1 and <= 9999 && month is >= 1 and <= 12)
            {
                found.Add(new SegmentMonth(year, month));
            }
        }

        found.Sort();
        return found;
    }
}

/// <summary>A month of event time, UTC.</summary>
internal readonly record struct SegmentMonth(int Year, int Month) : IComparable<SegmentMonth>
{
    private static readonly long Least = DateTimeOffset.MinValue.ToUnixTimeMilliseconds();
    private static readonly long Greatest = DateTimeOffset.MaxValue.ToUnixTimeMilliseconds();

    /// <summary>Its begin, in ms since 1970.</summary>
    public long Begin => new DateTimeOffset(Year, Month, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();

    /// <summary>Its end, exclusive, in ms since 1970.</summary>
    public long End => (Year, Month) == (9999, 12)
        ? Greatest + 1
        : new DateTimeOffset(Month == 12 ? Year + 1 : Year, Month == 12 ? 1 : Month + 1, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();

    public static SegmentMonth Of(long time)
    {
        var moment = DateTimeOffset.FromUnixTimeMilliseconds(Math.Clamp(time, Least, Greatest));
        return new SegmentMonth(moment.Year, moment.Month);
    }

    public int CompareTo(SegmentMonth other) => (Year, Month).CompareTo((other.Year, other.Month));
}
