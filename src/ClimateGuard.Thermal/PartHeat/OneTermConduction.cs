namespace ClimateGuard.Thermal;

/// <summary>The first term of the conduction series, good to a few parts in a thousand once Fo exceeds 0.2.</summary>
/// <remarks>θ = C₁·exp(−ζ₁²·Fo)·f(ζ₁·x*) (Incropera, Fundamentals of Heat and Mass Transfer, section 5.5.2 and table 5.1, from memory).</remarks>
public static class OneTermConduction
{
    /// <summary>The Fourier number from which one term is commonly used.</summary>
    public const double SmallestFourier = 0.2;

    /// <summary>θ at the centre; above 1 for times before the term is valid.</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞].</param>
    /// <param name="fourier">a·t/L², 0 or more.</param>
    /// <returns>The share of the first difference that is left, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Centre(ConductionGeometry geometry, double biot, double fourier)
    {
        FormulaInput.NotNegative(fourier, "");
        var mode = ConductionEigenvalues.Leading(geometry, biot);
        return mode.Coefficient * Math.Exp(-mode.Eigenvalue * mode.Eigenvalue * fourier);
    }

    /// <summary>θ at the surface.</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞].</param>
    /// <param name="fourier">a·t/L², 0 or more.</param>
    /// <returns>The share of the first difference that is left, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Surface(ConductionGeometry geometry, double biot, double fourier) =>
        Centre(geometry, biot, fourier) * ConductionEigenvalues.Leading(geometry, biot).SurfaceFactor;

    /// <summary>θ of the mean temperature.</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞].</param>
    /// <param name="fourier">a·t/L², 0 or more.</param>
    /// <returns>The share of the first difference that is left in the mean, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Mean(ConductionGeometry geometry, double biot, double fourier) =>
        Centre(geometry, biot, fourier) * ConductionEigenvalues.Leading(geometry, biot).MeanFactor;

    /// <summary>The Fourier number at which the centre has come down to θ.</summary>
    /// <param name="geometry">The body.</param>
    /// <param name="biot">h·L/k, in [1e-6, ∞].</param>
    /// <param name="theta">The share left at the centre, in (0, 1].</param>
    /// <returns>Fo, 0 or more; trust it from <see cref="SmallestFourier"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double FourierAtCentre(ConductionGeometry geometry, double biot, double theta)
    {
        FormulaInput.InRange(FormulaInput.Positive(theta, ""), 0, 1, "");
        var mode = ConductionEigenvalues.Leading(geometry, biot);
        return Math.Log(mode.Coefficient / theta) / (mode.Eigenvalue * mode.Eigenvalue);
    }
}
