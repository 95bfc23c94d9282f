using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>One mode fitted from a drift test.</summary>
public sealed record FittedDriftMode
{
    /// <summary>S, in µm/K; either sign.</summary>
    public required double SensitivityMicrometresPerKelvin { get; init; }

    /// <summary>τ.</summary>
    public required TimeSpan TimeConstant { get; init; }

    /// <summary>Range of S over the bootstrap, in µm/K, or null without bootstrap.</summary>
    public DriftInterval? SensitivityInterval { get; init; }

    /// <summary>Range of τ over the bootstrap, in h, or null without bootstrap.</summary>
    public DriftInterval? TimeConstantHoursInterval { get; init; }

    /// <summary>Standard uncertainty of S as a share of S; above zero, more than 1 when even the sign is open.</summary>
    public required double RelativeUncertainty { get; init; }

    /// <summary>How far θ of this mode moved when driven by the recorded temperature alone.</summary>
    public required Kelvins Excitation { get; init; }
}
