using System.Globalization;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The ledger in one SQLite file, <c>ledger.db</c>, in the folder of the store; each commit waits for the disk.</summary>
/// <remarks>A file of its own: readings come by the thousand and may be thinned, the ledger is small, waits for the disk and only grows.</remarks>
public sealed class SqliteLedger : ILedgerStore, IDisposable
{
    private const string Unwritten = "None of these lines is in the ledger, so nothing may be announced that rests on them.";

    private readonly Lock writing = new();
    private readonly SqliteFile file;
    private readonly SqliteCommand append;

    private SqliteLedger(SqliteFile file)
    {
        this.file = file;
        append = file.Writer.Command(
            "INSERT INTO line(time, kind, machine, json) VALUES($time, $kind, $machine, $json)",
            ("$time", ""), ("$kind", ""), ("$machine", null), ("$json", ""));
    }

    /// <summary>What was found at the opening.</summary>
    public StoreOpening Opening => file.Opening;

    /// <summary>Opens the ledger, makes it when it is not there, and sets a damaged file aside.</summary>
    /// <param name="storage">Where.</param>
    /// <param name="clock">For the name of a file set aside.</param>
    /// <param name="log">Told of damage and of a check that was cut short.</param>
    /// <exception cref="StoreUnavailableException">The folder is a file, read-only or full, or a newer release wrote the ledger.</exception>
    public static SqliteLedger Open(SqliteStorage storage, TimeProvider clock, ILogger log)
    {
        ArgumentNullException.ThrowIfNull(storage);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(log);
        return new SqliteLedger(SqliteFile.Open(storage, LedgerSchema.Kind, clock, log));
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentException">A line has no kind or no content; none was written.</exception>
    /// <exception cref="StoreUnavailableException">The lines could not be written; none was.</exception>
    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(lines);
        foreach (var line in lines)
        {
            ArgumentException.ThrowIfNullOrWhiteSpace(line.Kind, nameof(lines));
            ArgumentException.ThrowIfNullOrWhiteSpace(line.Json, nameof(lines));
        }

        cancellation.ThrowIfCancellationRequested();
        lock (writing)
        {
            try
            {
                Append(lines);
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "write the ledger", file.Path, Unwritten);
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">The number is outside [1, 10 000].</exception>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public ValueTask<IReadOnlyList<LedgerLine>> NewestAsync(string? kind, string? machine, int most, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(most, 10_000);
        return new(Task.Run<IReadOnlyList<LedgerLine>>(() => Newest(kind, machine, most), cancellation));
    }

    /// <summary>Closes the file. What was committed is there.</summary>
    public void Dispose()
    {
        lock (writing)
        {
            append.Dispose();
            file.Dispose();
        }
    }

    private void Append(IReadOnlyList<LedgerLine> lines)
    {
        using var transaction = file.Writer.BeginTransaction(deferred: false);
        append.Transaction = transaction;
        foreach (var line in lines)
        {
            append.Parameters[0].Value = line.Time.UtcDateTime.ToString("O", CultureInfo.InvariantCulture);
            append.Parameters[1].Value = line.Kind;
            append.Parameters[2].Value = (object?)line.Machine ?? DBNull.Value;
            append.Parameters[3].Value = line.Json;
            append.ExecuteNonQuery();
        }

        transaction.Commit();
    }

    private List<LedgerLine> Newest(string? kind, string? machine, int most)
    {
        var filter = (kind, machine) switch
        {
            (null, null) => "",
            (_, null) => "WHERE kind = $kind",
            (null, _) => "WHERE machine = $machine",
            _ => "WHERE machine = $machine AND kind = $kind",
        };
        using var reader = new SqliteConnection(
            new SqliteConnectionStringBuilder { DataSource = file.Path, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ToString());
        try
        {
            reader.Open();
            using var command = reader.Command(
                $"SELECT time, kind, machine, json FROM line {filter} ORDER BY seq DESC LIMIT $most",
                ("$kind", kind), ("$machine", machine), ("$most", most));
            using var rows = command.ExecuteReader();
            var lines = new List<LedgerLine>();
            while (rows.Read())
            {
                lines.Add(Line(rows));
            }

            return lines;
        }
        catch (SqliteException fault)
        {
            throw SqliteFault.Explain(fault, "read the ledger", file.Path, "What is on disk was not touched.");
        }
    }

    private static LedgerLine Line(SqliteDataReader row) => new(
        DateTimeOffset.Parse(row.GetString(0), CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal),
        row.GetString(1),
        row.IsDBNull(2) ? null : row.GetString(2),
        row.GetString(3));
}
