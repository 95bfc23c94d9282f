using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>The messages to people, written before they are sent: <c>outbox.db</c> in the folder of the store.</summary>
/// <remarks>
/// At least once: a message is marked as sent after it was sent, so a crash in between sends it again, with the same key. What a channel
/// remembers is committed together with the messages that follow from it. Safe across threads.
/// </remarks>
public sealed class SqliteOutbox : IDisposable
{
    private const string Unwritten = "The messages to people wait in memory and are tried again; readings, outlooks and the ledger go on.";
    private static readonly TimeSpan SentKept = TimeSpan.FromDays(30);

    private readonly Lock gate = new();
    private readonly SqliteFile file;

    private SqliteOutbox(SqliteFile file) => this.file = file;

    /// <summary>What was found at the opening.</summary>
    public StoreOpening Opening => file.Opening;

    /// <summary>Opens the outbox, makes it when it is not there, and sets a damaged file aside.</summary>
    /// <param name="storage">Where.</param>
    /// <param name="clock">For the name of a file set aside.</param>
    /// <param name="log">Told of damage and of a check that was cut short.</param>
    /// <exception cref="StoreUnavailableException">The folder is a file, read-only or full, or a newer release wrote the outbox.</exception>
    public static SqliteOutbox Open(SqliteStorage storage, TimeProvider clock, ILogger log)
    {
        ArgumentNullException.ThrowIfNull(storage);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(log);
        return new SqliteOutbox(SqliteFile.Open(storage, OutboxSchema.Kind, clock, log));
    }

    /// <summary>What a channel remembers, or null when it was never here.</summary>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public string? MemoryOf(string channel) => Use(() => file.Writer.Ask("SELECT json FROM memory WHERE channel = $channel", ("$channel", channel)) as string);

    /// <summary>Keeps what a channel remembers and the messages that follow from it, in one commit; a message that is there already stays as it is.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="memory">What it remembers.</param>
    /// <param name="notices">Keys and messages, in order.</param>
    /// <param name="now">The moment.</param>
    /// <exception cref="StoreUnavailableException">Nothing was written.</exception>
    public void Keep(string channel, string memory, IReadOnlyList<(string Key, string Json)> notices, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(notices);
        Use(() =>
        {
            using var transaction = file.Writer.BeginTransaction(deferred: false);
            foreach (var (key, json) in notices)
            {
                Change(
                    "INSERT OR IGNORE INTO notice(channel, key, made, json, due) VALUES($channel, $key, $now, $json, $now)",
                    ("$channel", channel), ("$key", key), ("$json", json), ("$now", now.ToUnixTimeMilliseconds()));
            }

            Change("INSERT OR REPLACE INTO memory(channel, json) VALUES($channel, $json)", ("$channel", channel), ("$json", memory));
            transaction.Commit();
            return true;
        });
    }

    /// <summary>The messages of a channel that are due, oldest first.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="now">The moment.</param>
    /// <param name="most">At most so many, in [1, 1 000].</param>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public IReadOnlyList<OutboxItem> Due(string channel, DateTimeOffset now, int most) => Read(
        "SELECT seq, key, json, made, attempts, due, error FROM notice WHERE channel = $channel AND state = 'waiting' AND due <= $now ORDER BY seq LIMIT $most",
        channel, now, most);

    /// <summary>The messages of a channel that were given up, newest first.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="most">At most so many, in [1, 1 000].</param>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public IReadOnlyList<OutboxItem> DeadLetters(string channel, int most) => Read(
        "SELECT seq, key, json, made, attempts, due, error FROM notice WHERE channel = $channel AND state = 'dead' AND $now >= 0 ORDER BY seq DESC LIMIT $most",
        channel, DateTimeOffset.UnixEpoch, most);

    /// <summary>Marks a message as sent, and forgets those sent more than 30 days ago.</summary>
    /// <exception cref="StoreUnavailableException">It is not marked, and will be sent again with the same key.</exception>
    public void MarkSent(long seq, DateTimeOffset now) => Use(() =>
    {
        Change("UPDATE notice SET state = 'sent', ended = $now, error = NULL WHERE seq = $seq", ("$seq", seq), ("$now", now.ToUnixTimeMilliseconds()));
        Change("DELETE FROM notice WHERE state = 'sent' AND ended < $before", ("$before", (now - SentKept).ToUnixTimeMilliseconds()));
        return true;
    });

    /// <summary>Notes that an attempt failed and when to try next.</summary>
    /// <exception cref="StoreUnavailableException">It is not noted.</exception>
    public void Postpone(long seq, string error, DateTimeOffset due) => Use(() => Change(
        "UPDATE notice SET attempts = attempts + 1, error = $error, due = $due WHERE seq = $seq",
        ("$seq", seq), ("$error", error), ("$due", due.ToUnixTimeMilliseconds())));

    /// <summary>Gives a message up: it is kept with the reason.</summary>
    /// <exception cref="StoreUnavailableException">It is not noted.</exception>
    public void GiveUp(long seq, string error, DateTimeOffset now) => Use(() => Change(
        "UPDATE notice SET state = 'dead', attempts = attempts + 1, error = $error, ended = $now WHERE seq = $seq",
        ("$seq", seq), ("$error", error), ("$now", now.ToUnixTimeMilliseconds())));

    /// <summary>How the outbox of a channel stands.</summary>
    /// <exception cref="StoreUnavailableException">It could not be read.</exception>
    public OutboxCounts Counts(string channel) => Use(() =>
    {
        using var command = file.Writer.Command(
            "SELECT coalesce(sum(state = 'sent'), 0), coalesce(sum(state = 'waiting'), 0), coalesce(sum(state = 'dead'), 0), "
            + "min(CASE WHEN state = 'waiting' THEN made END) FROM notice WHERE channel = $channel",
            ("$channel", channel));
        using var row = command.ExecuteReader();
        row.Read();
        return new OutboxCounts(row.GetInt64(0), row.GetInt64(1), row.GetInt64(2), row.IsDBNull(3) ? null : Time(row.GetInt64(3)));
    });

    /// <summary>Closes the file. What was committed is there.</summary>
    public void Dispose()
    {
        lock (gate)
        {
            file.Dispose();
        }
    }

    private static DateTimeOffset Time(long milliseconds) => DateTimeOffset.FromUnixTimeMilliseconds(milliseconds);

    private IReadOnlyList<OutboxItem> Read(string sql, string channel, DateTimeOffset now, int most)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(most, 1000);
        return Use(() =>
        {
            using var command = file.Writer.Command(sql, ("$channel", channel), ("$now", now.ToUnixTimeMilliseconds()), ("$most", most));
            using var rows = command.ExecuteReader();
            var items = new List<OutboxItem>();
            while (rows.Read())
            {
                items.Add(new OutboxItem(
                    rows.GetInt64(0), rows.GetString(1), rows.GetString(2), Time(rows.GetInt64(3)), rows.GetInt32(4), Time(rows.GetInt64(5)),
                    rows.IsDBNull(6) ? null : rows.GetString(6)));
            }

            return items;
        });
    }

    private int Change(string sql, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        using var command = file.Writer.Command(sql, parameters);
        return command.ExecuteNonQuery();
    }

    private T Use<T>(Func<T> work)
    {
        lock (gate)
        {
            try
            {
                return work();
            }
            catch (SqliteException fault)
            {
                throw SqliteFault.Explain(fault, "use the outbox", file.Path, Unwritten);
            }
        }
    }
}
