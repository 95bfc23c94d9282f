using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How one feature stands over the whole of a cut.</summary>
/// <remarks>Immutable. Equality by members, the trail by reference.</remarks>
public sealed record FeatureRisk
{
    /// <summary>The feature.</summary>
    public required Feature Feature { get; init; }

    /// <summary>The effect at the begin of the cut.</summary>
    public required FeatureEffect Now { get; init; }

    /// <summary>The effect expected over the cut, at even steps from begin to end.</summary>
    public required IReadOnlyList<FeatureEffect> Trail { get; init; }

    /// <summary>Which of the trail is largest in magnitude.</summary>
    public required int WorstIndex { get; init; }

    /// <summary>How long the cut takes.</summary>
    public required TimeSpan Duration { get; init; }

    /// <summary>Budget, in µm.</summary>
    public required double BudgetMicrometres { get; init; }

    /// <summary>Probability that the magnitude of the effect exceeds the budget at some moment of the cut.</summary>
    public required double Probability { get; init; }

    /// <summary>What would be left of the uncertainty after the best measurement of five minutes, in µm.</summary>
    public required double UAfterMeasurementMicrometres { get; init; }

    /// <summary>The answer for this feature alone.</summary>
    public required Answer Answer { get; init; }

    /// <summary>The largest effect expected.</summary>
    public FeatureEffect Worst => Trail[WorstIndex];

    /// <summary>When it is expected, from the begin of the cut.</summary>
    public TimeSpan WorstAfter => Trail.Count > 1 ? Duration * WorstIndex / (Trail.Count - 1) : TimeSpan.Zero;

    /// <summary>Uncertainty over budget: up to 1/4 good, above 1/2 the hold cannot be decided without an instrument.</summary>
    public double Health => Worst.UMicrometres / BudgetMicrometres;
}
