using System.Text;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Reads lines of the ledger from <c>ledger.db</c>, byte for byte: SQLite would end a text at its first zero byte.</summary>
internal static class LedgerRows
{
    public const string Columns =
        "seq, CAST(time AS BLOB), CAST(kind AS BLOB), CAST(machine AS BLOB), CAST(json AS BLOB), CAST(hash AS BLOB)";

    public static LedgerEntry Entry(SqliteDataReader row)
    {
        var timeText = Text(row, 1);
        var known = LedgerChain.TryReadTime(timeText, out var time);
        var line = new LedgerLine(time, Text(row, 2) ?? "", Text(row, 3), Text(row, 4) ?? "");
        return new LedgerEntry(row.GetInt64(0), line, Text(row, 5) ?? "")
        {
            Fault = known ? null : $"\"{timeText}\" is not a time as a worker writes it",
        };
    }

    public static IReadOnlyList<LedgerEntry> After(SqliteConnection reader, long afterSeq, int most)
    {
        using var command = reader.Command(
            $"SELECT {Columns} FROM line WHERE seq > $after ORDER BY seq LIMIT $most", ("$after", afterSeq), ("$most", most));
        return Entries(command);
    }

    public static IReadOnlyList<LedgerEntry> Back(SqliteConnection reader, string? kind, string? machine, long beforeSeq, int most)
    {
        var filter = (kind, machine) switch
        {
            (null, null) => "",
            (_, null) => "AND kind = $kind",
            (null, _) => "AND machine = $machine",
            _ => "AND machine = $machine AND kind = $kind",
        };
        using var command = reader.Command(
            $"SELECT {Columns} FROM line WHERE seq < $before {filter} ORDER BY seq DESC LIMIT $most",
            ("$kind", kind), ("$machine", machine), ("$before", beforeSeq), ("$most", most));
        return Entries(command);
    }

    /// <summary>Number and hash of the newest line, or null when there is none.</summary>
    public static LedgerHead? Head(SqliteConnection connection)
    {
        using var command = connection.Command("SELECT seq, hash FROM line ORDER BY seq DESC LIMIT 1");
        using var rows = command.ExecuteReader();
        return rows.Read() ? new LedgerHead(rows.GetInt64(0), rows.GetString(1)) : null;
    }

    private static List<LedgerEntry> Entries(SqliteCommand command)
    {
        using var rows = command.ExecuteReader();
        var entries = new List<LedgerEntry>();
        while (rows.Read())
        {
            entries.Add(Entry(rows));
        }

        return entries;
    }

    private static string? Text(SqliteDataReader row, int column) =>
        row.IsDBNull(column) ? null : Encoding.UTF8.GetString(row.GetFieldValue<byte[]>(column));
}
