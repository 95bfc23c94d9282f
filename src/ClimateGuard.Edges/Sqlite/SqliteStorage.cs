namespace ClimateGuard.Edges.Sqlite;

/// <summary>Where the embedded history lives and how carefully it is written.</summary>
public sealed record SqliteStorage
{
    /// <summary>The folder (setting <c>Storage:Path</c>); made when it is not there. On a local disk: the log of SQLite needs shared memory.</summary>
    public required string Folder { get; init; }

    /// <summary>
    /// Wait for the disk at each commit of readings. Off: a crash of the worker loses nothing, a power cut may lose the last commits,
    /// which the broker no longer has. On: neither, for as long as the disk tells the truth. The ledger always waits.
    /// </summary>
    public bool FlushEachCommit { get; init; }

    /// <summary>How many unreadable messages are kept, in [1, 1 000 000]; the oldest go first and are counted.</summary>
    public int UnreadableKept { get; init; } = 10_000;

    /// <summary>How long the check at start may take, in [0 s, 1 h]; a large file is then only checked in part.</summary>
    public TimeSpan CheckAtMost { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>How many readings lie unpacked at most before packing begins, in [1, 1 000 000]; they are also kept in memory, 25 bytes each.</summary>
    public int LooseReadings { get; init; } = 131_072;

    /// <summary>How long a reading lies unpacked at most while others come in, in [1 s, 1 day].</summary>
    public TimeSpan LooseAtMost { get; init; } = TimeSpan.FromHours(1);

    /// <summary>How long each level is kept.</summary>
    public HistoryRetention Retention { get; init; } = new();

    /// <summary>Refuses settings outside their ranges.</summary>
    /// <exception cref="ArgumentException">A setting is missing or outside its range.</exception>
    internal void Validate()
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(Folder);
        ArgumentOutOfRangeException.ThrowIfLessThan(UnreadableKept, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(UnreadableKept, 1_000_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(CheckAtMost, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(CheckAtMost, TimeSpan.FromHours(1));
        ArgumentOutOfRangeException.ThrowIfLessThan(LooseReadings, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(LooseReadings, 1_000_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(LooseAtMost, TimeSpan.FromSeconds(1));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(LooseAtMost, TimeSpan.FromDays(1));
        if (Retention.Problems() is [var problem, ..])
        {
            throw new ArgumentException(problem);
        }
    }
}
