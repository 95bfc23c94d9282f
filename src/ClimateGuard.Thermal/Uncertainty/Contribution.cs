namespace ClimateGuard.Thermal;

/// <summary>One input of a measurement or a prediction, with what its uncertainty does to the result (JCGM 100, table H.1).</summary>
/// <remarks>
/// Equality is by value. The unit of estimate and uncertainty is that of the input, the sensitivity turns it into the unit of the
/// result. Immutable, so safe across threads.
/// </remarks>
/// <param name="Label">The name people know it by, unique in its budget.</param>
/// <param name="Estimate">The best estimate, in the unit of the input.</param>
/// <param name="StandardUncertainty">u (k = 1), in the unit of the input, 0 or more.</param>
/// <param name="Sensitivity">∂result/∂input at the estimates; 0 for an input that acts only through a product.</param>
/// <param name="DegreesOfFreedom">How well u itself is known, in [1, ∞]; infinity for a u that is taken as exact.</param>
public sealed record Contribution(
    string Label,
    double Estimate,
    double StandardUncertainty,
    double Sensitivity,
    double DegreesOfFreedom = double.PositiveInfinity)
{
    /// <summary>|c|·u, in the unit of the result.</summary>
    public double Magnitude => Math.Abs(Sensitivity) * StandardUncertainty;

    internal double Signed => Sensitivity * StandardUncertainty;
}
