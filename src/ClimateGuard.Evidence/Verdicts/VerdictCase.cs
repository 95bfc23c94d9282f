namespace ClimateGuard.Evidence;

/// <summary>Whether the pattern of a deviation is that of the predicted cause.</summary>
public enum PatternMatch
{
    /// <summary>The feature has no pattern; its sign is all there is.</summary>
    NotApplicable,

    /// <summary>Scale or translation as predicted.</summary>
    Matches,

    /// <summary>Another component, or another size of it.</summary>
    Mismatch,

    /// <summary>It has one, but no vectors were measured.</summary>
    NotChecked,
}

/// <summary>All that the ladder looks at, for one feature of one part.</summary>
public sealed record VerdictCase
{
    /// <summary>The least share of valid data in the window of the cut; common practice, no source.</summary>
    public const double LeastKnownShare = 0.7;

    /// <summary>What is missing, so that nothing can be said; empty when all is there.</summary>
    public IReadOnlyList<string> Missing { get; init; } = [];

    /// <summary>Share of the window of the cut with valid inputs, in [0, 1].</summary>
    public double KnownShare { get; init; } = 1;

    /// <summary>Deviation at 20 °C, in µm; null when the device's mode leaves only a range.</summary>
    public double? DeviationMicrometres { get; init; }

    /// <summary>Its standard uncertainty, in µm.</summary>
    public double UDeviation { get; init; }

    /// <summary>Predicted thermal effect in the direction of the deviation, in µm.</summary>
    public double PredictedMicrometres { get; init; }

    /// <summary>Its standard uncertainty, in µm.</summary>
    public double UPredicted { get; init; }

    /// <summary>The prediction has a sign that the deviation could contradict.</summary>
    public bool HasSign { get; init; } = true;

    /// <summary>Whether the pattern is that of the cause.</summary>
    public PatternMatch Pattern { get; init; }

    /// <summary>
    /// What the holes show of temperature by themselves, in words: a scale that agrees with the predicted one and stands out of what the machine makes
    /// without temperature. Null without.
    /// </summary>
    public string? Signature { get; init; }

    /// <summary>What the predicted effect was corrected by, in words: the change of the holes during the cut. Null when it is as the readings gave it.</summary>
    public string? FromTrend { get; init; }

    /// <summary>The model of this machine was held against measurements and agrees.</summary>
    public bool ModelValidated { get; init; }

    /// <summary>Why the model counts as not validated, or null.</summary>
    public string? NotValidBecause { get; init; }

    /// <summary>What temperature cannot be told from, or null.</summary>
    public string? Confounder { get; init; }

    /// <summary>Other recorded changes that could have done it.</summary>
    public IReadOnlyList<string> CompetingChanges { get; init; } = [];

    /// <summary>Evidence that does not rest on the size of the deviation: trend within the part, re-probe, step, group test.</summary>
    public IReadOnlyList<string> IndependentEvidence { get; init; } = [];

    /// <summary>Predicted over measured; null when there is no one deviation, or it is zero.</summary>
    public double? Share => DeviationMicrometres is { } y && y != 0 ? PredictedMicrometres / y : null;
}
