using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>Everything an analysis of inspection results rests on.</summary>
public sealed record EvidenceQuestion
{
    /// <summary>The cell.</summary>
    public required Cell Cell { get; init; }

    /// <summary>The time zone of shifts.</summary>
    public required TimeZoneInfo Zone { get; init; }

    /// <summary>What became of each part.</summary>
    public required GenealogyRecord Genealogy { get; init; }

    /// <summary>The cuts with their samples and frozen predictions.</summary>
    public required IReadOnlyList<CutExposure> Cuts { get; init; }

    /// <summary>The inspected values, in the order they came in.</summary>
    public required IReadOnlyList<InspectionValue> Values { get; init; }

    /// <summary>Measurements that the model had predicted.</summary>
    public IReadOnlyList<ModelCheck> Checks { get; init; } = [];
}

/// <summary>What the analysis found.</summary>
public sealed record EvidenceAnswer
{
    /// <summary>The inspected features, by serial, operation and the order of the plant file.</summary>
    public required IReadOnlyList<FeatureEvidence> Features { get; init; }

    /// <summary>The groups, by part and feature.</summary>
    public required IReadOnlyList<GroupEvidence> Groups { get; init; }

    /// <summary>How far each machine's model may be trusted.</summary>
    public required IReadOnlyList<ModelValidity> Validity { get; init; }

    /// <summary>Serials, devices and work that nobody knows here, each said with what is known; their values are left out, never guessed.</summary>
    public required IReadOnlyList<string> Unknown { get; init; }
}
