namespace ClimateGuard.Thermal;

/// <summary>A first-order node that carries a share of the mean temperature of a part and is driven by the medium.</summary>
/// <remarks>dxᵢ/dt = (T∞ − xᵢ)/τᵢ and T̄ = Σ wᵢ·xᵢ; the weights of one part sum to 1. Immutable, so safe across threads.</remarks>
/// <param name="Weight">The share of the mean temperature, in (0, 1].</param>
/// <param name="TimeConstant">How long the node needs to follow 63 % of a step.</param>
public readonly record struct ConductionMode(double Weight, TimeSpan TimeConstant);
