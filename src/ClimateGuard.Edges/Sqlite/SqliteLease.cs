using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The right to decide for a cell, held by one worker at a time, in the ledger's own file.</summary>
/// <remarks>
/// <para>
/// Each take-over gives a token one higher than the last, and <see cref="SqliteLedger.AppendAsync"/> writes with the newest token only, checked
/// in the same transaction. So no clock can make two workers decide: clocks only say when a worker that fell silent may be replaced.
/// </para>
/// <para>
/// A holder is taken for gone when its lease has run out. What a worker finds when it first looks is judged by the wall time on the row, or
/// after one whole term of its own monotonic clock without a renewal, whichever is first: so a clock that was set back an hour delays a
/// take-over by one term, not by an hour. Once a worker has itself seen a renewal it trusts its monotonic clock alone: so a clock set forward
/// takes the lease from nobody who is alive.
/// </para>
/// <para>
/// A holder whose process is no longer there is gone at once, so that a worker that crashed is replaced without waiting for its term.
/// </para>
/// <para>All contenders are on one computer, since the write-ahead log of SQLite needs shared memory.</para>
/// </remarks>
public sealed class SqliteLease : IDisposable
{
    private const string Kept = "The lease stands as it was.";

    private readonly Lock asking = new();
    private readonly SqliteConnection connection;
    private readonly TimeProvider clock;
    private LeaseRow? seen;
    private long seenAt;
    private bool sawRenewal;

    internal SqliteLease(string path, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        this.clock = clock;
        connection = new SqliteConnection(
            new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadWrite, Pooling = false, DefaultTimeout = 5 }.ToString());
        connection.Open();
        connection.Do("PRAGMA busy_timeout = 5000");
    }

    /// <summary>Takes the lease when it is free, was given back or has run out.</summary>
    /// <param name="owner">Who asks.</param>
    /// <param name="ttl">How long it holds without a renewal, in [1 s, 1 h].</param>
    /// <param name="now">The wall time.</param>
    /// <returns>The token, or who holds the lease until when.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The term is outside its range.</exception>
    /// <exception cref="StoreUnavailableException">The file could not be read or written.</exception>
    public LeaseAnswer TryAcquire(LeaseOwner owner, TimeSpan ttl, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(owner);
        ArgumentOutOfRangeException.ThrowIfLessThan(ttl, TimeSpan.FromSeconds(1));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(ttl, TimeSpan.FromHours(1));
        lock (asking)
        {
            return Do("take the lease", () => Acquire(owner, ttl, now));
        }
    }

    /// <summary>Holds the lease for another term.</summary>
    /// <param name="token">The token that was given.</param>
    /// <param name="ttl">The term, in [1 s, 1 h].</param>
    /// <param name="now">The wall time.</param>
    /// <returns>Whether it is still held. Also true after a late renewal, as long as nobody took over.</returns>
    /// <exception cref="StoreUnavailableException">The file could not be written; whether the lease is still held is not known.</exception>
    public bool Renew(long token, TimeSpan ttl, DateTimeOffset now)
    {
        lock (asking)
        {
            return Do("renew the lease", () => Change(token, row => row with
            {
                Until = LedgerChain.TimeText(now + ttl), TtlMilliseconds = (long)ttl.TotalMilliseconds, Renewals = row.Renewals + 1,
            }));
        }
    }

    /// <summary>Gives the lease back, so that the next worker need not wait. The token counts on.</summary>
    /// <param name="token">The token that was given.</param>
    /// <returns>Whether it was still held.</returns>
    /// <exception cref="StoreUnavailableException">The file could not be written; the lease runs out by itself.</exception>
    public bool Release(long token)
    {
        lock (asking)
        {
            return Do("give the lease back", () => Change(token, row => row with { Held = false }));
        }
    }

    /// <summary>Who holds the lease, or null when nobody does.</summary>
    /// <exception cref="StoreUnavailableException">The file could not be read.</exception>
    public LeaseHolder? Holder()
    {
        lock (asking)
        {
            return Do("read the lease", () => LeaseRow.Read(connection) is { Held: true } row ? row.Holder() : null);
        }
    }

    /// <summary>Leaves word for the holder that somebody asked and was refused; once, however often it asks.</summary>
    /// <param name="owner">Who asked.</param>
    /// <param name="now">The wall time.</param>
    /// <exception cref="StoreUnavailableException">The file could not be written.</exception>
    public void NoteRefusal(LeaseOwner owner, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(owner);
        lock (asking)
        {
            Do("note who was refused", () =>
            {
                connection.Do(
                    "INSERT OR IGNORE INTO refusal(host, process, time) VALUES($host, $process, $time)",
                    ("$host", owner.Host), ("$process", owner.Process), ("$time", LedgerChain.TimeText(now)));
                return true;
            });
        }
    }

    /// <summary>Who was refused and is not forgotten yet.</summary>
    /// <exception cref="StoreUnavailableException">The file could not be read.</exception>
    public IReadOnlyList<RefusedClaim> Refusals()
    {
        lock (asking)
        {
            return Do("read who was refused", () =>
            {
                var found = new List<RefusedClaim>();
                using var command = connection.Command("SELECT host, process, time FROM refusal ORDER BY time");
                using var rows = command.ExecuteReader();
                while (rows.Read())
                {
                    var time = LedgerChain.TryReadTime(rows.GetString(2), out var read) ? read : DateTimeOffset.MinValue;
                    found.Add(new RefusedClaim(new LeaseOwner(rows.GetString(0), rows.GetInt32(1)), time));
                }

                return found;
            });
        }
    }

    /// <summary>Forgets one that is in the ledger now.</summary>
    /// <param name="refused">Who was refused.</param>
    /// <exception cref="StoreUnavailableException">The file could not be written.</exception>
    public void Forget(RefusedClaim refused)
    {
        ArgumentNullException.ThrowIfNull(refused);
        lock (asking)
        {
            Do("forget who was refused", () =>
            {
                connection.Do("DELETE FROM refusal WHERE host = $host AND process = $process", ("$host", refused.Owner.Host), ("$process", refused.Owner.Process));
                return true;
            });
        }
    }

    /// <inheritdoc/>
    public void Dispose() => connection.Dispose();

    private LeaseAnswer Acquire(LeaseOwner owner, TimeSpan ttl, DateTimeOffset now)
    {
        // Read first, so that a worker that stands by does not take the write lock each second from the one that works.
        if (LeaseRow.Read(connection) is { } standing && !IsFree(standing, now))
        {
            return new LeaseAnswer(null, standing.Holder(), null);
        }

        using var transaction = connection.BeginTransaction(deferred: false);
        var found = LeaseRow.Read(connection);
        if (found is not null && !IsFree(found, now))
        {
            return new LeaseAnswer(null, found.Holder(), null);
        }

        var taken = new LeaseRow(
            (found?.Token ?? 0) + 1, true, owner.Host, owner.Process, LedgerChain.TimeText(now), LedgerChain.TimeText(now + ttl),
            (long)ttl.TotalMilliseconds, 0);
        taken.Write(connection);
        transaction.Commit();
        seen = null;
        return new LeaseAnswer(taken.Token, taken.Holder(), found is { Held: true } ? found.Holder() : null);
    }

    private bool IsFree(LeaseRow row, DateTimeOffset now)
    {
        if (!row.Held || row.Holder().Owner.IsGone())
        {
            return true;
        }

        if (seen is null || row.Token != seen.Token || row.Renewals != seen.Renewals)
        {
            sawRenewal = seen is not null;
            seen = row;
            seenAt = clock.GetTimestamp();
        }

        return clock.GetElapsedTime(seenAt).TotalMilliseconds >= row.TtlMilliseconds
            || (!sawRenewal && now >= row.Holder().Until);
    }

    private bool Change(long token, Func<LeaseRow, LeaseRow> change)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        if (LeaseRow.Read(connection) is not { Held: true } row || row.Token != token)
        {
            return false;
        }

        change(row).Write(connection);
        transaction.Commit();
        return true;
    }

    private T Do<T>(string doing, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException fault)
        {
            throw SqliteFault.Explain(fault, doing, connection.DataSource, Kept);
        }
    }
}
