using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Keeps the newest unreadable messages and counts those that had to go.</summary>
/// <param name="connection">The writer.</param>
/// <param name="kept">How many are kept.</param>
internal sealed class UnreadableShelf(SqliteConnection connection, int kept)
{
    /// <summary>Adds messages; on return they are committed.</summary>
    /// <returns>How many old ones were dropped.</returns>
    public int Add(IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        using var add = connection.Command(
            "INSERT INTO unreadable(arrived, topic, reason, payload) VALUES($arrived, $topic, $reason, $payload)",
            ("$arrived", 0L), ("$topic", ""), ("$reason", ""), ("$payload", ""));
        foreach (var (arrivedAt, message) in messages)
        {
            add.Parameters[0].Value = arrivedAt.ToUnixTimeMilliseconds();
            add.Parameters[1].Value = message.Topic;
            add.Parameters[2].Value = message.Reason;
            add.Parameters[3].Value = message.PayloadStart;
            add.ExecuteNonQuery();
        }

        using var drop = connection.Command("DELETE FROM unreadable WHERE id <= (SELECT max(id) FROM unreadable) - $kept", ("$kept", kept));
        var dropped = drop.ExecuteNonQuery();
        if (dropped > 0)
        {
            connection.Do("UPDATE tally SET dropped = dropped + $dropped", ("$dropped", dropped));
        }

        transaction.Commit();
        return dropped;
    }

    /// <summary>The newest, newest first.</summary>
    public static IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> Newest(SqliteConnection reader, int most)
    {
        using var command = reader.Command(
            "SELECT arrived, topic, reason, payload FROM unreadable ORDER BY id DESC LIMIT $most", ("$most", most));
        using var rows = command.ExecuteReader();
        var found = new List<(DateTimeOffset, UnreadableMessage)>();
        while (rows.Read())
        {
            found.Add((
                DateTimeOffset.FromUnixTimeMilliseconds(rows.GetInt64(0)),
                new UnreadableMessage(rows.GetString(1), rows.GetString(2), rows.GetString(3))));
        }

        return found;
    }
}
