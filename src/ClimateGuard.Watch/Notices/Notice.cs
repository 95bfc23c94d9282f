namespace ClimateGuard.Watch;

/// <summary>What a message to people says about its cause.</summary>
public enum NoticeKind
{
    /// <summary>Something begins that a person should act on.</summary>
    Opened,

    /// <summary>It now reads differently, or concerns other machines.</summary>
    Edited,

    /// <summary>It still stands after some time.</summary>
    FollowedUp,

    /// <summary>It is over, or no longer followed.</summary>
    Closed,

    /// <summary>What was held back, in one message.</summary>
    Digest,

    /// <summary>A test; nothing is the matter.</summary>
    Test,
}

/// <summary>One message to people. Plain data, written to the outbox before it is sent.</summary>
public sealed record Notice
{
    /// <summary>Unique; a message sent twice carries it twice, so that the receiver can tell.</summary>
    public required string Key { get; init; }

    /// <summary>Key of the message that this one goes on from, or null for a first one.</summary>
    public string? GoesOnFrom { get; init; }

    /// <summary>Id of the cell.</summary>
    public required string Cell { get; init; }

    /// <summary>What it says about its cause.</summary>
    public required NoticeKind Kind { get; init; }

    /// <summary>When it was decided.</summary>
    public required DateTimeOffset Time { get; init; }

    /// <summary>When its cause began.</summary>
    public required DateTimeOffset Since { get; init; }

    /// <summary>How soon a person must act.</summary>
    public required AlertPriority Priority { get; init; }

    /// <summary>The cause in a few words.</summary>
    public required string Cause { get; init; }

    /// <summary>The machines concerned, each once.</summary>
    public IReadOnlyList<string> Machines { get; init; } = [];

    /// <summary>How many jobs are concerned.</summary>
    public int AffectedJobs { get; init; }

    /// <summary>One line.</summary>
    public required string Subject { get; init; }

    /// <summary>What happened, one sentence or paragraph each.</summary>
    public required IReadOnlyList<string> Lines { get; init; }

    /// <summary>The one action.</summary>
    public required string Action { get; init; }

    /// <summary>Ids of the alerts that are told here for the first time as standing.</summary>
    public IReadOnlyList<string> Opens { get; init; } = [];

    /// <summary>Ids of the alerts, told before, that are told here as over.</summary>
    public IReadOnlyList<string> Closes { get; init; } = [];
}
