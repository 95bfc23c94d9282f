namespace ClimateGuard.Thermal;

/// <summary>One term of the series: θ = Σ Cₙ·exp(−ζₙ²·Fo)·fₙ(x*).</summary>
/// <param name="Eigenvalue">ζₙ, the n-th positive root, without unit.</param>
/// <param name="Coefficient">Cₙ for a body that starts at one temperature, without unit.</param>
/// <param name="SurfaceFactor">fₙ at the surface, x* = 1.</param>
/// <param name="MeanFactor">The mean of fₙ over the volume.</param>
public readonly record struct ConductionEigenmode(double Eigenvalue, double Coefficient, double SurfaceFactor, double MeanFactor)
{
    /// <summary>The share of the mean temperature this mode carries at the start; over all modes the shares sum to 1.</summary>
    public double MeanWeight => Coefficient * MeanFactor;
}
