namespace ClimateGuard.Watch;

/// <summary>What a notice policy remembers between two steps. Plain data: it is kept in the outbox and read back after a restart.</summary>
public sealed record NoticeState
{
    /// <summary>The moment up to which it has been stepped; time never runs backwards.</summary>
    public DateTimeOffset At { get; init; }

    /// <summary>How many notices were begun; part of each key.</summary>
    public long Begun { get; init; }

    /// <summary>How many alerts were over before anyone was told.</summary>
    public long Fleeting { get; init; }

    /// <summary>How many alerts found no room and were only counted.</summary>
    public long Uncounted { get; init; }

    /// <summary>The notices that stand or wait, oldest first.</summary>
    public IReadOnlyList<NoticeThread> Threads { get; init; } = [];

    /// <summary>When messages were made in the last hour.</summary>
    public IReadOnlyList<DateTimeOffset> Sent { get; init; } = [];

    /// <summary>What came and went while messages were held back, for the digest.</summary>
    public IReadOnlyList<string> Held { get; init; } = [];

    /// <summary>How many lines of the digest found no room.</summary>
    public int HeldMore { get; init; }

    /// <summary>Ids of alerts, told as standing, whose end was held back.</summary>
    public IReadOnlyList<string> HeldCloses { get; init; } = [];
}

/// <summary>One cause from its begin to its end: what becomes one message that is edited, followed up and closed.</summary>
public sealed record NoticeThread
{
    /// <summary>Part of the key of each of its messages.</summary>
    public required string Id { get; init; }

    /// <summary>What its alerts have in common: cause and reason.</summary>
    public required string Group { get; init; }

    /// <summary>When its first alert came.</summary>
    public required DateTimeOffset Begun { get; init; }

    /// <summary>When it last heard of an alert.</summary>
    public required DateTimeOffset Touched { get; init; }

    /// <summary>The highest priority of its alerts.</summary>
    public AlertPriority Priority { get; init; }

    /// <summary>Its alerts.</summary>
    public required IReadOnlyList<NoticeMember> Members { get; init; }

    /// <summary>Key of its first message, or null while nothing was told.</summary>
    public string? Root { get; init; }

    /// <summary>How many messages were made of it.</summary>
    public int Messages { get; init; }

    /// <summary>When the last was made.</summary>
    public DateTimeOffset ToldAt { get; init; }

    /// <summary>What the last said, without its numbers.</summary>
    public string ToldShape { get; init; } = "";

    /// <summary>How many follow-up times have passed.</summary>
    public int FollowedUp { get; init; }

    /// <summary>Whether something of it was held back and is owed.</summary>
    public bool Withheld { get; init; }

    /// <summary>Whether an alert of it comes and goes.</summary>
    public bool Chattering { get; init; }
}

/// <summary>One alert of a notice.</summary>
/// <param name="Alert">As it reads now.</param>
/// <param name="Since">When it last began to stand.</param>
/// <param name="Over">When it ended, or null while it stands.</param>
/// <param name="Activations">How often it began.</param>
/// <param name="Recent">When, within the time in which chattering is judged.</param>
/// <param name="Told">Whether it was told as standing.</param>
public sealed record NoticeMember(
    Alert Alert, DateTimeOffset Since, DateTimeOffset? Over, int Activations, IReadOnlyList<DateTimeOffset> Recent, bool Told);
