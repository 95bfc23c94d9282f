namespace ClimateGuard.Thermal;

/// <summary>The uncertainty of an effect worked out in two ways, side by side.</summary>
/// <remarks>
/// First order propagates variances (JCGM 100, 5.1.2 and 5.2.2), Monte Carlo distributions (JCGM 101). They part where the effect is bent within
/// its uncertainty, as the magnitude of a position error near zero is. Equality by members, the contributions by reference. Immutable.
/// </remarks>
public sealed record EffectUncertainty
{
    /// <summary>The effect, in µm.</summary>
    public required double EffectMicrometres { get; init; }

    /// <summary>Standard uncertainty by first order with the α·T products, in µm; the one that decides.</summary>
    public required double UMicrometres { get; init; }

    /// <summary>The part of it that only the α·T products give, in µm: what first order alone would miss.</summary>
    public required double ProductsMicrometres { get; init; }

    /// <summary>Standard uncertainty by Monte Carlo, in µm.</summary>
    public required double UMonteCarloMicrometres { get; init; }

    /// <summary>Mean of the effect by Monte Carlo, in µm; above the effect where that is a magnitude near zero.</summary>
    public required double MeanMonteCarloMicrometres { get; init; }

    /// <summary>The shortest interval with 95 % of the draws, in µm.</summary>
    public required CoverageInterval Interval95 { get; init; }

    /// <summary>What makes up the first, each in µm; root of the sum of squares.</summary>
    public required IReadOnlyList<UncertaintyShare> Contributions { get; init; }
}
