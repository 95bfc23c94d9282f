using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The lease as it stands in <c>ledger.db</c>; the only row of its table.</summary>
internal sealed record LeaseRow(long Token, bool Held, string Host, int Process, string Since, string Until, long TtlMilliseconds, long Renewals)
{
    public static LeaseRow? Read(SqliteConnection connection)
    {
        using var command = connection.Command("SELECT token, held, host, process, since, until, ttl, renewals FROM lease");
        using var rows = command.ExecuteReader();
        return rows.Read()
            ? new LeaseRow(
                rows.GetInt64(0), rows.GetBoolean(1), rows.GetString(2), rows.GetInt32(3), rows.GetString(4), rows.GetString(5),
                rows.GetInt64(6), rows.GetInt64(7))
            : null;
    }

    /// <summary>Refuses a writer whose token is not the newest one, held; without any lease in the file, token 0 may write.</summary>
    public static void RefuseUnlessNewest(SqliteConnection connection, long token)
    {
        var row = Read(connection);
        if (row is null ? token != 0 : !row.Held || row.Token != token)
        {
            throw new LeaseLostException(
                row is { Held: true }
                    ? $"{row.Holder()} decides for this cell. Nothing was written."
                    : "Nobody holds the lease of this cell, this worker neither. Nothing was written.");
        }
    }

    public LeaseHolder Holder() => new(Token, new LeaseOwner(Host, Process), Time(Since), Time(Until));

    public void Write(SqliteConnection connection) => connection.Do(
        """
        INSERT INTO lease(one, token, held, host, process, since, until, ttl, renewals)
            VALUES(1, $token, $held, $host, $process, $since, $until, $ttl, $renewals)
        ON CONFLICT(one) DO UPDATE SET token = excluded.token, held = excluded.held, host = excluded.host, process = excluded.process,
            since = excluded.since, until = excluded.until, ttl = excluded.ttl, renewals = excluded.renewals
        """,
        ("$token", Token), ("$held", Held), ("$host", Host), ("$process", Process), ("$since", Since), ("$until", Until),
        ("$ttl", TtlMilliseconds), ("$renewals", Renewals));

    private static DateTimeOffset Time(string text) => LedgerChain.TryReadTime(text, out var time) ? time : DateTimeOffset.MinValue;
}
