using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The ledger in one SQLite file, <c>ledger.db</c>, in the folder of the store; each commit waits for the disk.</summary>
/// <remarks>
/// A file of its own: readings come by the thousand and may be thinned, the ledger is small, waits for the disk and only grows. Lines are
/// numbered, chained and fenced in the transaction that writes them: when another worker took the lease meanwhile, nothing is written.
/// </remarks>
public sealed class SqliteLedger : ILedgerStore, IDisposable
{
    private const string Unwritten = "None of these lines is in the ledger, so nothing may be announced that rests on them.";

    private readonly Lock writing = new();
    private readonly SqliteFile file;
    private readonly string cellId;
    private readonly SqliteCommand append;
    private readonly SqliteCommand keep;
    private readonly SqliteCommand apply;
    private long token;

    private SqliteLedger(SqliteFile file, string cellId)
    {
        this.file = file;
        this.cellId = cellId;
        append = file.Writer.Command(
            "INSERT INTO line(seq, time, kind, machine, json, hash) VALUES($seq, $time, $kind, $machine, $json, $hash)",
            ("$seq", 0L), ("$time", ""), ("$kind", ""), ("$machine", null), ("$json", ""), ("$hash", ""));
        keep = file.Writer.Command("INSERT OR REPLACE INTO checkpoint(machine, json) VALUES($machine, $json)", ("$machine", ""), ("$json", ""));
        apply = file.Writer.Command("UPDATE applied SET seq = (SELECT ifnull(max(seq), 0) FROM line)");
    }

    /// <summary>What was found at the opening.</summary>
    public StoreOpening Opening => file.Opening;

    /// <summary>Opens the ledger, makes it when it is not there, chains the lines of an earlier release, and sets a damaged file aside.</summary>
    /// <param name="storage">Where.</param>
    /// <param name="cellId">Id of the cell; the ledger of another is refused.</param>
    /// <param name="clock">For the name of a file set aside.</param>
    /// <param name="log">Told of damage and of a check that was cut short.</param>
    /// <exception cref="StoreUnavailableException">
    /// The folder is a file, read-only or full, or the ledger is of another cell or a newer release.
    /// </exception>
    public static SqliteLedger Open(SqliteStorage storage, string cellId, TimeProvider clock, ILogger log)
    {
        ArgumentNullException.ThrowIfNull(storage);
        ArgumentException.ThrowIfNullOrWhiteSpace(cellId);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(log);
        var file = SqliteFile.Open(storage, LedgerSchema.KindOf(cellId), clock, log);
        if (file.Writer.Ask("SELECT cell FROM chain") is string found && found == cellId)
        {
            return new SqliteLedger(file, cellId);
        }

        var other = file.Writer.Ask("SELECT cell FROM chain");
        file.Dispose();
        throw new StoreUnavailableException(
            $"{file.Path} is the ledger of cell {other}, and the plant file describes cell {cellId}. "
            + "Name another folder in Storage:Path, or the plant file of that cell. The ledger was not touched.");
    }

    /// <summary>From now on writes with this token, see <see cref="SqliteLease"/>; refused as soon as it is not the newest.</summary>
    /// <param name="newToken">The token that the lease gave.</param>
    public void WriteWith(long newToken) => Interlocked.Exchange(ref token, newToken);

    /// <summary>The lease in the same file, with a connection of its own.</summary>
    /// <param name="clock">Its monotonic time judges holders that this process has seen alive.</param>
    public SqliteLease OpenLease(TimeProvider clock) => new(file.Path, clock);

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">The lines could not be written; none was.</exception>
    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation) => AppendAsync(lines, [], cancellation);

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">Nothing could be written; nothing was.</exception>
    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, IReadOnlyList<MachineCheckpoint> checkpoints, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(checkpoints);
        LedgerLine.RefuseBad(lines);
        cancellation.ThrowIfCancellationRequested();
        lock (writing)
        {
            try
            {
                Append(lines, checkpoints);
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "write the ledger", file.Path, Unwritten);
            }
        }

        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public async ValueTask<IReadOnlyList<LedgerEntry>> ReadAsync(long afterSeq, int most, CancellationToken cancellation)
    {
        using var view = SqliteLedgerView.Open(file.Path);
        return await view.ReadAsync(afterSeq, most, cancellation);
    }

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public ValueTask<LedgerCheckpoints> CheckpointsAsync(CancellationToken cancellation)
    {
        lock (writing)
        {
            try
            {
                var found = new List<MachineCheckpoint>();
                using var read = file.Writer.Command("SELECT machine, json FROM checkpoint ORDER BY machine");
                using var rows = read.ExecuteReader();
                while (rows.Read())
                {
                    found.Add(new MachineCheckpoint(rows.GetString(0), rows.GetString(1)));
                }

                return new(new LedgerCheckpoints((long)file.Writer.Ask("SELECT seq FROM applied")!, found));
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "read the checkpoints of the machines", file.Path, "They were not touched.");
            }
        }
    }

    /// <inheritdoc/>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public async ValueTask<IReadOnlyList<LedgerEntry>> ReadBackAsync(
        string? kind, string? machine, long beforeSeq, int most, CancellationToken cancellation)
    {
        using var view = SqliteLedgerView.Open(file.Path);
        return await view.ReadBackAsync(kind, machine, beforeSeq, most, cancellation);
    }

    /// <summary>Closes the file. What was committed is there.</summary>
    public void Dispose()
    {
        lock (writing)
        {
            append.Dispose();
            keep.Dispose();
            apply.Dispose();
            file.Dispose();
        }
    }

    private void Append(IReadOnlyList<LedgerLine> lines, IReadOnlyList<MachineCheckpoint> checkpoints)
    {
        if (lines.Count == 0 && checkpoints.Count == 0)
        {
            LeaseRow.RefuseUnlessNewest(file.Writer, token);
            return;
        }

        using var transaction = file.Writer.BeginTransaction(deferred: false);
        LeaseRow.RefuseUnlessNewest(file.Writer, token);
        append.Transaction = transaction;
        foreach (var entry in LedgerChain.Extend(cellId, LedgerRows.Head(file.Writer), lines))
        {
            append.Parameters[0].Value = entry.Seq;
            append.Parameters[1].Value = LedgerChain.TimeText(entry.Line.Time);
            append.Parameters[2].Value = entry.Line.Kind;
            append.Parameters[3].Value = (object?)entry.Line.Machine ?? DBNull.Value;
            append.Parameters[4].Value = entry.Line.Json;
            append.Parameters[5].Value = entry.Hash;
            append.ExecuteNonQuery();
        }

        KeepCheckpoints(checkpoints, transaction);
        transaction.Commit();
    }

    private void KeepCheckpoints(IReadOnlyList<MachineCheckpoint> checkpoints, SqliteTransaction transaction)
    {
        if (checkpoints.Count == 0)
        {
            return;
        }

        keep.Transaction = transaction;
        foreach (var checkpoint in checkpoints)
        {
            keep.Parameters[0].Value = checkpoint.Machine;
            keep.Parameters[1].Value = checkpoint.Json;
            keep.ExecuteNonQuery();
        }

        apply.Transaction = transaction;
        apply.ExecuteNonQuery();
    }
}
