using System.Globalization;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The steps that bring a file of any earlier release to the present shape.</summary>
/// <remarks>
/// The number of steps taken stands in <c>PRAGMA user_version</c>. A step, once released, never changes: a new shape is a new step.
/// Each step is one transaction together with its number, so that a crash in between leaves the older shape, whole; two workers that open
/// the file at once take each step once.
/// </remarks>
/// <param name="steps">What each step does on the connection, oldest first.</param>
public sealed class SqliteSchema(params Action<SqliteConnection>[] steps)
{
    /// <summary>Steps that are SQL alone.</summary>
    /// <param name="steps">The SQL of each step, oldest first.</param>
    public SqliteSchema(params string[] steps)
        : this([.. steps.Select(Sql)])
    {
    }

    /// <summary>The version this release writes.</summary>
    public int Version => steps.Length;

    /// <summary>A step that is SQL alone.</summary>
    /// <param name="sql">The SQL.</param>
    public static Action<SqliteConnection> Sql(string sql) => connection => connection.Do(sql);

    /// <summary>Takes the steps that the file has not seen.</summary>
    /// <param name="connection">An open connection that may write.</param>
    /// <exception cref="StoreUnavailableException">A newer release wrote the file.</exception>
    public void Apply(SqliteConnection connection)
    {
        ArgumentNullException.ThrowIfNull(connection);
        var found = VersionOf(connection);
        if (found > steps.Length)
        {
            throw new StoreUnavailableException(
                $"{connection.DataSource} was written by a newer release (shape {found}; this one knows up to {steps.Length}). "
                + "Start that release, or name another folder in Storage:Path. The file was not touched.");
        }

        for (var step = found; step < steps.Length; step++)
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            if (VersionOf(connection) == step)
            {
                steps[step](connection);
                connection.Do(string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {step + 1}"));
            }

            transaction.Commit();
        }
    }

    /// <summary>How many steps a file has seen.</summary>
    internal static int VersionOf(SqliteConnection connection) =>
        Convert.ToInt32(connection.Ask("PRAGMA user_version"), CultureInfo.InvariantCulture);
}
