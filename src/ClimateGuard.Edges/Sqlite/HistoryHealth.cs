namespace ClimateGuard.Edges.Sqlite;

/// <summary>How the history stands.</summary>
/// <param name="Rows">Readings accepted or corrected.</param>
/// <param name="Quarantined">Readings kept, not used.</param>
/// <param name="UnreadableDropped">Unreadable messages that were dropped to keep their number bounded.</param>
/// <param name="Bytes">Size on disk, its log included.</param>
/// <param name="LastCommit">When this process last committed, or null.</param>
/// <param name="FreeBytes">Free space of the disk, or null when it cannot be told.</param>
public sealed record HistoryHealth(
    long Rows, long Quarantined, long UnreadableDropped, long Bytes, DateTimeOffset? LastCommit, long? FreeBytes)
{
    /// <summary>Where damaged months now lie that were set aside since the start.</summary>
    public IReadOnlyList<string> Damaged { get; init; } = [];
}
