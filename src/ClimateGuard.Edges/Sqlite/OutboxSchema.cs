namespace ClimateGuard.Edges.Sqlite;

/// <summary>The shape of <c>outbox.db</c>.</summary>
internal static class OutboxSchema
{
    /// <summary>
    /// Times are milliseconds since 1970. A notice is <c>waiting</c> until it is <c>sent</c> or <c>dead</c>; what a channel remembers lies in
    /// the same file, so that both change in one commit.
    /// </summary>
    public static SqliteFileKind Kind { get; } = new("outbox.db", new SqliteSchema(
        """
        CREATE TABLE notice(
          seq INTEGER PRIMARY KEY AUTOINCREMENT, channel TEXT NOT NULL, key TEXT NOT NULL, made INTEGER NOT NULL, json TEXT NOT NULL,
          state TEXT NOT NULL DEFAULT 'waiting' CHECK(state IN ('waiting', 'sent', 'dead')),
          attempts INTEGER NOT NULL DEFAULT 0, due INTEGER NOT NULL, ended INTEGER, error TEXT,
          UNIQUE(channel, key));
        CREATE INDEX notice_waiting ON notice(channel, seq) WHERE state = 'waiting';
        CREATE INDEX notice_state ON notice(channel, state);
        CREATE TABLE memory(channel TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
        """), FlushEachCommit: true);
}
