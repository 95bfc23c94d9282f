namespace ClimateGuard.Edges.Sqlite;

/// <summary>The shape of <c>ledger.db</c>.</summary>
internal static class LedgerSchema
{
    /// <summary>
    /// Time is text in RFC 3339, UTC, to the tick, so that a line comes back as it was written and an auditor can read it with any SQLite
    /// tool. The triggers keep a slip of our own from changing the record; they are no defence against someone with the file.
    /// </summary>
    public static SqliteFileKind Kind { get; } = new("ledger.db", new SqliteSchema(
        """
        CREATE TABLE line(seq INTEGER PRIMARY KEY, time TEXT NOT NULL, kind TEXT NOT NULL, machine TEXT, json TEXT NOT NULL);
        CREATE INDEX line_kind ON line(kind);
        CREATE INDEX line_machine ON line(machine, kind);
        CREATE TRIGGER line_is_never_changed BEFORE UPDATE ON line BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
        CREATE TRIGGER line_is_never_removed BEFORE DELETE ON line BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
        """), FlushEachCommit: true);
}
