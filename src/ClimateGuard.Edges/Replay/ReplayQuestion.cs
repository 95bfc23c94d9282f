using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Replay;

/// <summary>What is to be replayed.</summary>
public sealed record ReplayQuestion
{
    /// <summary>The cell.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Version of its plant file.</summary>
    public required string ConfigVersion { get; init; }

    /// <summary>The file of readings, CSV (plain or gzip) or Parquet.</summary>
    public required string Readings { get; init; }

    /// <summary>The file of events, or null.</summary>
    public string? Events { get; init; }

    /// <summary>The file to write.</summary>
    public required string Out { get; init; }

    /// <summary>An outlook of each machine at least so often, in [1 s, 1 d]; null: only when it changes.</summary>
    public TimeSpan? Every { get; init; }

    /// <summary>How many readings are sorted in memory at once, 16 bytes each, in [1 000, 100 000 000]; more are sorted in pieces on disk.</summary>
    public int MostInMemory { get; init; } = 16_000_000;

    /// <summary>Told what is done and how much of it, in [0, 1], and of how many readings.</summary>
    public Action<string, double, long> Progress { get; init; } = (_, _, _) => { };

    /// <summary>Told of each step after it: the moment, what happened, what was decided, and the loop to look at; only for an output that begins anew.</summary>
    internal Action<DateTimeOffset, CellEvent?, IReadOnlyList<Watch.Decision>, Watch.EventTimeLoop>? Seen { get; init; }

    /// <summary>How often the machines are stepped when nothing happens.</summary>
    internal TimeSpan Tick => Every is { } every && every < TimeSpan.FromMinutes(1) ? every : TimeSpan.FromMinutes(1);
}

/// <summary>What a replay came to.</summary>
public sealed record ReplayResult
{
    /// <summary>Readings taken.</summary>
    public required long Readings { get; init; }

    /// <summary>Rows without a value.</summary>
    public required long WithoutValue { get; init; }

    /// <summary>Events taken.</summary>
    public required long Events { get; init; }

    /// <summary>Lines written.</summary>
    public required long Lines { get; init; }

    /// <summary>The first moment; null when the files are empty.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>The last moment.</summary>
    public DateTimeOffset? To { get; init; }

    /// <summary>The moment after which it went on; null when it began with the first.</summary>
    public DateTimeOffset? GoesOnAfter { get; init; }

    /// <summary>The output is whole; else it was stopped and the same replay goes on.</summary>
    public required bool Done { get; init; }
}
