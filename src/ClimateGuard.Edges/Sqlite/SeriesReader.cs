using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Puts rows and what was set aside in the words of the port.</summary>
internal static class SeriesReader
{
    private const int RowsInPage = 10_000;

    /// <summary>What was set aside in a window, in time order.</summary>
    public static IReadOnlyList<QuarantinedReading> Quarantined(SqliteConnection reader, string sensorId, Window window, int most) =>
        List(
            reader, sensorId, window, most,
            "SELECT q.t, q.raw, r.name, q.arrived FROM quarantine q JOIN reason r ON r.id = q.reason "
            + "WHERE q.sensor = $sensor AND q.t >= $from AND q.t < $to ORDER BY q.t, q.raw LIMIT $most",
            rows => new QuarantinedReading(
                rows.GetInt64(0), rows.GetDouble(1), Reason(rows.GetString(2)), DateTimeOffset.FromUnixTimeMilliseconds(rows.GetInt64(3))));

    /// <summary>What was corrected in a window, in time order.</summary>
    public static IReadOnlyList<CorrectedReading> Corrected(SqliteConnection reader, HistoryReader history, Window window, int most)
    {
        var reasons = NameTable.Names(reader, "reason");
        var found = new List<CorrectedReading>();
        while (window.From < window.To)
        {
            var (rows, next) = history.Rows(window, RowsInPage);
            for (var n = 0; n < rows.Count; n++)
            {
                if (rows[n] is { Reason: not 0 } row)
                {
                    found.Add(new CorrectedReading(row.Time, row.Raw, row.Value, Reason(reasons[row.Reason])));
                    if (found.Count == most)
                    {
                        return found;
                    }
                }
            }

            window = window with { From = next };
        }

        return found;
    }

    /// <summary>Every row from the begin of a window: at least a page if there are so many, and where the next page begins.</summary>
    public static (IReadOnlyList<StoredReading> Rows, long Next) Rows(SqliteConnection reader, HistoryReader history, string sensorId, Window window)
    {
        var reasons = NameTable.Names(reader, "reason");
        var (rows, next) = history.Rows(window, RowsInPage);
        var aside = Quarantined(reader, sensorId, window with { To = next }, int.MaxValue);
        var stamps = Stamps(reader, sensorId, window with { To = next });
        var found = new List<StoredReading>(rows.Count + aside.Count);
        var at = 0;
        for (var n = 0; n < rows.Count; n++)
        {
            var row = rows[n];
            for (; at < aside.Count && aside[at].EpochMilliseconds < row.Time; at++)
            {
                found.Add(Aside(aside[at]));
            }

            var reason = row.Reason == 0 ? TrustReason.None : Reason(reasons[row.Reason]);
            found.Add(new StoredReading(row.Time, row.Raw, row.Value, reason == TrustReason.None ? Trust.Accepted : Trust.Corrected, reason)
            {
                StampMilliseconds = stamps.GetValueOrDefault(row.Time, row.Time),
            });

            // A second delivery that came before the first was kept says nothing new.
            for (; at < aside.Count && aside[at].EpochMilliseconds == row.Time; at++)
            {
                if (aside[at] is not { Reason: TrustReason.Duplicate } second || second.Raw != row.Raw)
                {
                    found.Add(Aside(aside[at]));
                }
            }
        }

        found.AddRange(aside.Skip(at).Select(Aside));
        return (found, next);
    }

    /// <summary>The stamps as sent, where the sender's clock was ahead, by event time.</summary>
    private static Dictionary<long, long> Stamps(SqliteConnection reader, string sensorId, Window window) =>
        List(
            reader, sensorId, window, int.MaxValue,
            "SELECT t, stamped FROM stamp WHERE sensor = $sensor AND t >= $from AND t < $to LIMIT $most",
            rows => (Time: rows.GetInt64(0), Stamp: rows.GetInt64(1))).ToDictionary(row => row.Time, row => row.Stamp);

    private static StoredReading Aside(QuarantinedReading row) =>
        new(row.EpochMilliseconds, row.Raw, row.Raw, Trust.Quarantined, row.Reason);

    private static List<T> List<T>(
        SqliteConnection reader, string sensorId, Window window, int most, string sql, Func<SqliteDataReader, T> take)
    {
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

    /// <summary>The number of a sensor.</summary>
    /// <exception cref="ArgumentException">It is not known.</exception>
    public static long SensorRow(SqliteConnection reader, string sensorId)
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
