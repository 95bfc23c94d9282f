using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The shape of <c>ledger.db</c>.</summary>
internal static class LedgerSchema
{
    public const string FileName = "ledger.db";

    /// <summary>From this shape on the lines are chained.</summary>
    public const int ChainedFrom = 2;

    /// <summary>
    /// Time is text in RFC 3339, UTC, to the tick, so that a line comes back as it was written and an auditor can read it with any SQLite
    /// tool. The triggers keep a slip of our own from changing the record; against someone with the file there is the chain.
    /// </summary>
    private const string Lines =
        """
        CREATE TABLE line(seq INTEGER PRIMARY KEY, time TEXT NOT NULL, kind TEXT NOT NULL, machine TEXT, json TEXT NOT NULL);
        CREATE INDEX line_kind ON line(kind);
        CREATE INDEX line_machine ON line(machine, kind);
        CREATE TRIGGER line_is_never_changed BEFORE UPDATE ON line BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
        CREATE TRIGGER line_is_never_removed BEFORE DELETE ON line BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
        """;

    /// <summary>The token of a lease never falls, whoever takes or gives it back: the row stays for ever.</summary>
    private const string ChainAndLease =
        """
        DROP TRIGGER line_is_never_changed;
        ALTER TABLE line ADD COLUMN hash TEXT NOT NULL DEFAULT '';
        CREATE TABLE chain(one INTEGER PRIMARY KEY CHECK(one = 1), cell TEXT NOT NULL, older INTEGER NOT NULL);
        CREATE TABLE lease(
            one INTEGER PRIMARY KEY CHECK(one = 1), token INTEGER NOT NULL, held INTEGER NOT NULL, host TEXT NOT NULL, process INTEGER NOT NULL,
            since TEXT NOT NULL, until TEXT NOT NULL, ttl INTEGER NOT NULL, renewals INTEGER NOT NULL);
        CREATE TRIGGER lease_token_never_falls BEFORE UPDATE ON lease WHEN NEW.token < OLD.token
            BEGIN SELECT RAISE(ABORT, 'the token of a lease never falls'); END;
        CREATE TRIGGER lease_is_never_removed BEFORE DELETE ON lease BEGIN SELECT RAISE(ABORT, 'the token of a lease never falls'); END;
        """;

    private const string NeverChanged =
        "CREATE TRIGGER line_is_never_changed BEFORE UPDATE ON line BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;";

    /// <summary>
    /// What each machine remembers beside the lines, replaced with them in one commit; not part of the record. Lines of a release without
    /// checkpoints count as decided.
    /// </summary>
    private const string Checkpoints =
        """
        CREATE TABLE checkpoint(machine TEXT PRIMARY KEY, json TEXT NOT NULL);
        CREATE TABLE applied(one INTEGER PRIMARY KEY CHECK(one = 1), seq INTEGER NOT NULL);
        INSERT INTO applied SELECT 1, ifnull(max(seq), 0) FROM line;
        """;

    /// <summary>Who asked for the lease and was refused: only the holder may write lines, so they wait here for it.</summary>
    private const string Refusals =
        "CREATE TABLE refusal(host TEXT NOT NULL, process INTEGER NOT NULL, time TEXT NOT NULL, PRIMARY KEY(host, process));";

    /// <summary>The shape for the ledger of a cell.</summary>
    public static SqliteFileKind KindOf(string cellId) => new(
        FileName,
        new SqliteSchema(SqliteSchema.Sql(Lines), connection => ChainOlderLines(connection, cellId), SqliteSchema.Sql(Checkpoints), SqliteSchema.Sql(Refusals)),
        FlushEachCommit: true);

    /// <summary>The lines of the release before get their hashes: from now on they cannot change unseen; what happened before cannot be told.</summary>
    private static void ChainOlderLines(SqliteConnection connection, string cellId)
    {
        connection.Do(ChainAndLease);
        var previous = LedgerChain.Begin(cellId);
        var older = 0L;
        using (var read = connection.Command($"SELECT {LedgerRows.Columns} FROM line ORDER BY seq"))
        using (var write = connection.Command("UPDATE line SET hash = $hash WHERE seq = $seq", ("$hash", ""), ("$seq", 0L)))
        using (var rows = read.ExecuteReader())
        {
            while (rows.Read())
            {
                var entry = LedgerRows.Entry(rows);
                previous = LedgerChain.Hash(previous, entry.Seq, entry.Line);
                write.Parameters[0].Value = previous;
                write.Parameters[1].Value = entry.Seq;
                write.ExecuteNonQuery();
                older++;
            }
        }

        connection.Do("INSERT INTO chain VALUES(1, $cell, $older)", ("$cell", cellId), ("$older", older));
        connection.Do(NeverChanged);
    }
}
