namespace ClimateGuard.Edges.Sqlite;

/// <summary>The shape of <c>readings.db</c>.</summary>
internal static class ReadingsSchema
{
    /// <summary>
    /// Step 1 was the whole history: a reading is one row under (sensor, event time), so that a second delivery finds its place taken. What was
    /// corrected keeps its raw value in the same row. Reasons are named once, so that the
    /// order of an enumeration may change. The one row of <c>tally</c> counts inside each transaction: counting 100 million rows takes minutes.
    /// Step 2 keeps only what is new here: a batch is one packed row of <c>log</c> until its readings lie packed by sensor in the file of
    /// their month (<see cref="SegmentSchema"/>); <c>logged</c> and <c>packed</c> are the numbers of the newest batch and of the newest
    /// packed one. Where the sender's clock was ahead, <c>stamp</c> keeps the stamp as sent. <c>moving</c> says how far the rows of the first shape have gone the same way; then the table <c>reading</c> is dropped.
    /// </summary>
    public static SqliteFileKind Kind { get; } = new("readings.db", new SqliteSchema(
        """
        CREATE TABLE sensor(id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE);
        CREATE TABLE reason(id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE);
        CREATE TABLE reading(
            sensor INTEGER NOT NULL, t INTEGER NOT NULL, value REAL NOT NULL, raw REAL, reason INTEGER,
            PRIMARY KEY(sensor, t)) WITHOUT ROWID;
        CREATE TABLE quarantine(
            sensor INTEGER NOT NULL, t INTEGER NOT NULL, raw REAL NOT NULL, reason INTEGER NOT NULL, arrived INTEGER NOT NULL,
            PRIMARY KEY(sensor, t, raw, reason)) WITHOUT ROWID;
        CREATE TABLE unreadable(id INTEGER PRIMARY KEY, arrived INTEGER NOT NULL, topic TEXT NOT NULL, reason TEXT NOT NULL, payload TEXT NOT NULL);
        CREATE TABLE tally(one INTEGER PRIMARY KEY CHECK(one = 1), readings INTEGER NOT NULL, quarantined INTEGER NOT NULL, dropped INTEGER NOT NULL);
        INSERT INTO tally VALUES(1, 0, 0, 0);
        """,
        """
        CREATE TABLE log(id INTEGER PRIMARY KEY, body BLOB NOT NULL);
        CREATE TABLE stamp(sensor INTEGER NOT NULL, t INTEGER NOT NULL, stamped INTEGER NOT NULL, PRIMARY KEY(sensor, t)) WITHOUT ROWID;
        CREATE TABLE pin(id INTEGER PRIMARY KEY, t0 INTEGER NOT NULL, t1 INTEGER NOT NULL, why TEXT NOT NULL);
        CREATE TABLE moving(one INTEGER PRIMARY KEY CHECK(one = 1), sensor INTEGER NOT NULL, t INTEGER NOT NULL);
        INSERT INTO moving VALUES(1, -1, 0);
        ALTER TABLE tally ADD COLUMN logged INTEGER NOT NULL DEFAULT 0;
        ALTER TABLE tally ADD COLUMN packed INTEGER NOT NULL DEFAULT 0;
        """), FlushEachCommit: false);
}
