using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;
using Microsoft.Extensions.Logging;

namespace ClimateGuard.Edges.Notices;

/// <summary>What a channel to people is made of.</summary>
public sealed record NoticeChannelParts
{
    /// <summary>The name: <c>mail</c> or <c>webhook</c>.</summary>
    public required string Name { get; init; }

    /// <summary>Who is told when.</summary>
    public required NoticePolicy Policy { get; init; }

    /// <summary>Gives alerts their priority; of this channel alone.</summary>
    public required AlertPriorities Priorities { get; init; }

    /// <summary>Where messages lie before they are sent.</summary>
    public required SqliteOutbox Outbox { get; init; }

    /// <summary>Sends one message; throws when it did not arrive.</summary>
    public required Func<Notice, CancellationToken, Task> Send { get; init; }

    /// <summary>How often it is tried.</summary>
    public DeliveryRules Delivery { get; init; } = new();

    /// <summary>The clock of the cell, for the policy.</summary>
    public required TimeProvider CellTime { get; init; }

    /// <summary>The clock of the wall, for delivery.</summary>
    public required TimeProvider WallTime { get; init; }

    /// <summary>The jitter of the pauses.</summary>
    public required Random Chance { get; init; }

    /// <summary>The log.</summary>
    public required ILogger Logger { get; init; }
}
