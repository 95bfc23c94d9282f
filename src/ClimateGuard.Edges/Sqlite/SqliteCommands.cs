using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>One-line commands, for what is not asked often.</summary>
internal static class SqliteCommands
{
    private const int PatienceMilliseconds = 5_000;

    /// <summary>Opens a connection whose every statement waits for who holds the file, as its commands do by themselves.</summary>
    public static void OpenPatiently(this SqliteConnection connection)
    {
        connection.Open();
        raw.sqlite3_busy_timeout(connection.Handle, PatienceMilliseconds);
    }

    /// <summary>The same for one that only reads. The file is opened for writing all the same: where a process was killed, SQLite must put back
    /// what that one had begun before anything can be read.</summary>
    public static void OpenToRead(this SqliteConnection connection)
    {
        connection.OpenPatiently();
        SqliteException.ThrowExceptionForRC(raw.sqlite3_exec(connection.Handle, "PRAGMA query_only = 1"), connection.Handle);
    }

    public static void Do(this SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        using var command = connection.Command(sql, parameters);
        command.ExecuteNonQuery();
    }

    public static object? Ask(this SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        using var command = connection.Command(sql, parameters);
        return command.ExecuteScalar();
    }

    public static SqliteCommand Command(
        this SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        foreach (var (name, value) in parameters)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        return command;
    }

    /// <summary>Gives up the transaction, if SQLite has not done so itself as it does on a full disk.</summary>
    public static void RollBackIfOpen(this SqliteConnection connection)
    {
        if (raw.sqlite3_get_autocommit(connection.Handle) == 0)
        {
            connection.Do("ROLLBACK");
        }
    }
}
