using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The numbers under which names stand in rows; a name keeps its number for ever.</summary>
internal static class NameTable
{
    /// <summary>The numbers of these names in the same order; new names get one.</summary>
    public static long[] Rows(SqliteConnection writer, string table, IEnumerable<string> names)
    {
        using var transaction = writer.BeginTransaction(deferred: false);
        using var find = writer.Command($"SELECT id FROM {table} WHERE name = $name", ("$name", ""));
        using var add = writer.Command($"INSERT INTO {table}(name) VALUES($name) RETURNING id", ("$name", ""));
        var rows = new List<long>();
        foreach (var name in names)
        {
            find.Parameters[0].Value = name;
            add.Parameters[0].Value = name;
            rows.Add((long)(find.ExecuteScalar() ?? add.ExecuteScalar())!);
        }

        transaction.Commit();
        return [.. rows];
    }

    /// <summary>All names by their numbers.</summary>
    public static Dictionary<long, string> Names(SqliteConnection reader, string table)
    {
        using var command = reader.Command($"SELECT id, name FROM {table}");
        using var rows = command.ExecuteReader();
        var names = new Dictionary<long, string>();
        while (rows.Read())
        {
            names.Add(rows.GetInt64(0), rows.GetString(1));
        }

        return names;
    }
}
