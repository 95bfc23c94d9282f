using System.Globalization;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The steps that bring a file of any earlier release to the present shape.</summary>
/// <remarks>
/// The number of steps taken stands in <c>PRAGMA user_version</c>. A step, once released, never changes: a new shape is a new step.
/// Each step is one transaction together with its number, so that a crash in between leaves the older shape, whole.
/// </remarks>
/// <param name="steps">The SQL of each step, oldest first.</param>
public sealed class SqliteSchema(params string[] steps)
{
    /// <summary>The version this release writes.</summary>
    public int Version => steps.Length;

    /// <summary>Takes the steps that the file has not seen.</summary>
    /// <param name="connection">An open connection that may write.</param>
    /// <exception cref="StoreUnavailableException">A newer release wrote the file.</exception>
    public void Apply(SqliteConnection connection)
    {
        ArgumentNullException.ThrowIfNull(connection);
        var found = Convert.ToInt32(connection.Ask("PRAGMA user_version"), CultureInfo.InvariantCulture);
        if (found > steps.Length)
        {
            throw new StoreUnavailableException(
                $"{connection.DataSource} was written by a newer release (shape {found}; this one knows up to {steps.Length}). "
                + "Start that release, or name another folder in Storage:Path. The file was not touched.");
        }

        for (var step = found; step < steps.Length; step++)
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            connection.Do(steps[step]);
            connection.Do(string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {step + 1}"));
            transaction.Commit();
        }
    }
}
