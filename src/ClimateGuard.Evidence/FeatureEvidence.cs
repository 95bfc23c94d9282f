namespace ClimateGuard.Evidence;

/// <summary>One inspected feature of one part with all that is known of it and what it comes to.</summary>
public sealed record FeatureEvidence
{
    /// <summary>The inspected values.</summary>
    public required InspectedFeature Inspected { get; init; }

    /// <summary>The values at 20 °C beside their correction.</summary>
    public required FeatureAtReference AtReference { get; init; }

    /// <summary>The cut with its samples, or null when no readings reach it.</summary>
    public CutExposure? Cut { get; init; }

    /// <summary>The exposure, or null.</summary>
    public Exposure? Exposure { get; init; }

    /// <summary>The prediction as it stood when the cut began; nothing computed later replaces it. Null when none was kept.</summary>
    public Prediction? Frozen { get; init; }

    /// <summary>The effect computed from all that is stored now, or null.</summary>
    public Prediction? Recomputed { get; init; }

    /// <summary>Predicted effect in the direction of the deviation, in µm: of a pattern that of its worst hole; NaN when not known.</summary>
    public double PredictedMicrometres { get; init; } = double.NaN;

    /// <summary>The pattern, or null.</summary>
    public PatternEvidence? Pattern { get; init; }

    /// <summary>What the change of the holes during the cut says of the part's temperature, or null.</summary>
    public TrendThermometer? Trend { get; init; }

    /// <summary>What the ladder looked at.</summary>
    public required VerdictCase Case { get; init; }

    /// <summary>The verdict.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Whether it would have been in tolerance at zero thermal effect.</summary>
    public required ZeroEffect AtZeroEffect { get; init; }

    /// <summary>Other parts with the same exposure.</summary>
    public IReadOnlyList<ExposedPart> Containment { get; init; } = [];

    /// <summary>Serial number.</summary>
    public string Serial => Inspected.Step.Serial;
}
