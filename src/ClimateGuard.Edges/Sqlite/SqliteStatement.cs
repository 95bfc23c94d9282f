using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>A prepared statement that is bound and run without allocating.</summary>
/// <remarks>The commands of Microsoft.Data.Sqlite box each parameter and make a reader for each run; for a burst of readings that is the
/// greater part of the garbage of the process. Not safe across threads.</remarks>
internal sealed class SqliteStatement : IDisposable
{
    private readonly sqlite3 database;
    private readonly sqlite3_stmt statement;

    public SqliteStatement(SqliteConnection connection, string sql)
    {
        database = connection.Handle ?? throw new InvalidOperationException("The connection is closed.");
        SqliteException.ThrowExceptionForRC(raw.sqlite3_prepare_v2(database, sql, out statement), database);
    }

    /// <summary>Rows changed by the last run.</summary>
    public int Changes => raw.sqlite3_changes(database);

    public SqliteStatement Bind(int place, long value)
    {
        SqliteException.ThrowExceptionForRC(raw.sqlite3_bind_int64(statement, place, value), database);
        return this;
    }

    public SqliteStatement Bind(int place, double value)
    {
        SqliteException.ThrowExceptionForRC(raw.sqlite3_bind_double(statement, place, value), database);
        return this;
    }

    public SqliteStatement Bind(int place, string value)
    {
        SqliteException.ThrowExceptionForRC(raw.sqlite3_bind_text(statement, place, value), database);
        return this;
    }

    public SqliteStatement Bind(int place, ReadOnlySpan<byte> value)
    {
        SqliteException.ThrowExceptionForRC(raw.sqlite3_bind_blob(statement, place, value), database);
        return this;
    }

    /// <summary>Goes to the next row; at the end it is ready to be bound again.</summary>
    /// <exception cref="SqliteException">It failed.</exception>
    public bool Next()
    {
        var result = raw.sqlite3_step(statement);
        if (result == raw.SQLITE_ROW)
        {
            return true;
        }

        raw.sqlite3_reset(statement);
        if (result != raw.SQLITE_DONE)
        {
            SqliteException.ThrowExceptionForRC(result, database);
        }

        return false;
    }

    /// <summary>A number of the present row; 0 for null.</summary>
    public long Number(int column) => raw.sqlite3_column_int64(statement, column);

    /// <summary>Whether the present row has nothing there.</summary>
    public bool IsNull(int column) => raw.sqlite3_column_type(statement, column) == raw.SQLITE_NULL;

    /// <summary>Bytes of the present row; gone with the next step.</summary>
    public ReadOnlySpan<byte> Bytes(int column) => raw.sqlite3_column_blob(statement, column);

    /// <summary>Leaves the rows that were not asked for.</summary>
    public void Reset() => raw.sqlite3_reset(statement);

    /// <summary>Runs it to its end.</summary>
    /// <exception cref="SqliteException">It failed.</exception>
    public void Run()
    {
        var result = raw.sqlite3_step(statement);
        raw.sqlite3_reset(statement);
        if (result is not (raw.SQLITE_DONE or raw.SQLITE_ROW))
        {
            SqliteException.ThrowExceptionForRC(result, database);
        }
    }

    public void Dispose() => statement.Dispose();
}
