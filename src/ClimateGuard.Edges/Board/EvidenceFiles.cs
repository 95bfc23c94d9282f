using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Board;

/// <summary>The files and values that evidence rests on.</summary>
public sealed record EvidenceFiles
{
    /// <summary>The cell.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Version of its plant file.</summary>
    public required string ConfigVersion { get; init; }

    /// <summary>File of readings.</summary>
    public required string Readings { get; init; }

    /// <summary>File of events.</summary>
    public required string Events { get; init; }

    /// <summary>The inspected values.</summary>
    public required IReadOnlyList<InspectionValue> Values { get; init; }

    /// <summary>Hash of the file of results, or of each, in order.</summary>
    public required string ResultsSha256 { get; init; }

    /// <summary>Predictions that a ledger kept when cuts began, by work and feature; empty: those of the replay stand.</summary>
    public IReadOnlyDictionary<WorkOnMachine, IReadOnlyDictionary<string, Prediction>> Frozen { get; init; } =
        new Dictionary<WorkOnMachine, IReadOnlyDictionary<string, Prediction>>();

    /// <summary>Up to such a span holds are replayed minute by minute, if nothing else is said.</summary>
    public static readonly TimeSpan UsualOutlooksUpTo = TimeSpan.FromDays(35);

    /// <summary>Over a longer span temperatures alone are followed, with one outlook before each cut.</summary>
    public TimeSpan OutlooksUpTo { get; init; } = UsualOutlooksUpTo;
}
