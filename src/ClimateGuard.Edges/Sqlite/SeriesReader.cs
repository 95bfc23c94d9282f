using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Reads series and what was set aside, each on a connection of its own that sees one state of the file.</summary>
internal static class SeriesReader
{
    /// <summary>The accepted readings of a window, at most so many points, in one scan.</summary>
    public static IReadOnlyList<SeriesPoint> Read(
        SqliteConnection reader, string sensorId, Window window, int points, CancellationToken cancellation)
    {
        using var oneState = reader.BeginTransaction(deferred: true);
        var sensor = SensorRow(reader, sensorId);
        const string Within = "FROM reading WHERE sensor = $sensor AND t >= $from AND t < $to ORDER BY t";
        (string, object?)[] parameters = [("$sensor", sensor), ("$from", window.From), ("$to", window.To)];
        if (reader.Ask($"SELECT t {Within} LIMIT 1", parameters) is not long first)
        {
            return [];
        }

        var last = (long)reader.Ask($"SELECT t {Within} DESC LIMIT 1", parameters)!;
        var thinning = new SeriesThinning(points, first, last);
        using var command = reader.Command($"SELECT t, value {Within}", parameters);
        using var rows = command.ExecuteReader();
        for (var n = 1; rows.Read(); n++)
        {
            thinning.Add(new SeriesPoint(rows.GetInt64(0), rows.GetDouble(1)));
            if (n % 1024 == 0)
            {
                cancellation.ThrowIfCancellationRequested();
            }
        }

        return thinning.Points();
    }

    /// <summary>What was set aside in a window, in time order.</summary>
    public static IReadOnlyList<QuarantinedReading> Quarantined(SqliteConnection reader, string sensorId, Window window, int most) =>
        List(
            reader, sensorId, window, most,
            "SELECT q.t, q.raw, r.name, q.arrived FROM quarantine q JOIN reason r ON r.id = q.reason "
            + "WHERE q.sensor = $sensor AND q.t >= $from AND q.t < $to ORDER BY q.t LIMIT $most",
            rows => new QuarantinedReading(
                rows.GetInt64(0), rows.GetDouble(1), Reason(rows.GetString(2)), DateTimeOffset.FromUnixTimeMilliseconds(rows.GetInt64(3))));

    /// <summary>What was corrected in a window, in time order.</summary>
    public static IReadOnlyList<CorrectedReading> Corrected(SqliteConnection reader, string sensorId, Window window, int most) =>
        List(
            reader, sensorId, window, most,
            "SELECT d.t, d.raw, d.value, r.name FROM reading d JOIN reason r ON r.id = d.reason "
            + "WHERE d.sensor = $sensor AND d.t >= $from AND d.t < $to AND d.raw IS NOT NULL ORDER BY d.t LIMIT $most",
            rows => new CorrectedReading(rows.GetInt64(0), rows.GetDouble(1), rows.GetDouble(2), Reason(rows.GetString(3))));

    /// <summary>Every row from the begin of a window: at least so many if there are, a moment never cut in two, and where the next page begins.</summary>
    public static (IReadOnlyList<StoredReading> Rows, long Next) Rows(SqliteConnection reader, string sensorId, Window window, int page)
    {
        const string All =
            "SELECT t, coalesce(raw, value), value, 0 AS kind, reason, coalesce(stamped, t) FROM reading WHERE sensor = $sensor AND t >= $from AND t < $to "
            + "UNION ALL SELECT t, raw, raw, 1, reason, t FROM quarantine WHERE sensor = $sensor AND t >= $from AND t < $to ORDER BY 1, 4, 2";
        using var oneState = reader.BeginTransaction(deferred: true);
        var reasons = NameTable.Names(reader, "reason");
        using var command = reader.Command(All, ("$sensor", SensorRow(reader, sensorId)), ("$from", window.From), ("$to", window.To));
        using var rows = command.ExecuteReader();
        var found = new List<StoredReading>();
        while (rows.Read())
        {
            var time = rows.GetInt64(0);
            if (found.Count >= page && found[^1].EpochMilliseconds != time)
            {
                return (found, time);
            }

            var reason = rows.IsDBNull(4) ? TrustReason.None : Reason(reasons[rows.GetInt64(4)]);
            var trust = rows.GetInt64(3) == 1 ? Trust.Quarantined : reason == TrustReason.None ? Trust.Accepted : Trust.Corrected;
            found.Add(new StoredReading(time, rows.GetDouble(1), rows.GetDouble(2), trust, reason)
            {
                StampMilliseconds = rows.GetInt64(5),
            });
        }

        return (found, window.To);
    }

    private static List<T> List<T>(
        SqliteConnection reader, string sensorId, Window window, int most, string sql, Func<SqliteDataReader, T> take)
    {
        using var oneState = reader.BeginTransaction(deferred: true);
        using var command = reader.Command(
            sql, ("$sensor", SensorRow(reader, sensorId)), ("$from", window.From), ("$to", window.To), ("$most", most));
        using var rows = command.ExecuteReader();
        var found = new List<T>();
        while (rows.Read())
        {
            found.Add(take(rows));
        }

        return found;
    }

    private static TrustReason Reason(string name) => Enum.Parse<TrustReason>(name);

    private static long SensorRow(SqliteConnection reader, string sensorId)
    {
        if (reader.Ask("SELECT id FROM sensor WHERE name = $name", ("$name", sensorId)) is long row)
        {
            return row;
        }

        using var command = reader.Command("SELECT name FROM sensor");
        using var rows = command.ExecuteReader();
        var known = new List<string>();
        while (rows.Read())
        {
            known.Add(rows.GetString(0));
        }

        throw new ArgumentException(
            $"No sensor '{sensorId}' in this cell or in its history; {NearestNames.Hint(sensorId, known)}", nameof(sensorId));
    }

    /// <summary>A window of event time in whole milliseconds: from, inclusive, to, exclusive.</summary>
    internal readonly record struct Window(long From, long To)
    {
        /// <summary>Times between two milliseconds count from the next one, on both sides, so that windows that touch share no reading.</summary>
        /// <exception cref="ArgumentException">The begin does not lie before the end.</exception>
        public static Window Between(DateTimeOffset from, DateTimeOffset to)
        {
            if (from >= to)
            {
                throw new ArgumentException($"The window must begin before it ends; it begins at {from:O} and ends at {to:O}.", nameof(from));
            }

            return new Window(Ceiling(from), Ceiling(to));
        }

        private static long Ceiling(DateTimeOffset time) =>
            time.ToUnixTimeMilliseconds() + (time.Ticks % TimeSpan.TicksPerMillisecond == 0 ? 0 : 1);
    }
}
