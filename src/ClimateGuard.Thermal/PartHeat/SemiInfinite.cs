using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>A thick body seen from its surface, before the other side feels anything.</summary>
/// <remarks>ξ = x/(2·√(a·t)) (Incropera, Fundamentals of Heat and Mass Transfer, section 5.7, from memory).</remarks>
public static class SemiInfinite
{
    /// <summary>ξ = x/(2·√(a·t)), the depth in units of what heat has reached.</summary>
    /// <param name="depthMetres">x, in m, 0 or more.</param>
    /// <param name="diffusivitySquareMetresPerSecond">a, in m²/s, above 0.</param>
    /// <param name="elapsed">t, above 0.</param>
    /// <returns>ξ, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Similarity(double depthMetres, double diffusivitySquareMetresPerSecond, TimeSpan elapsed)
    {
        FormulaInput.NotNegative(depthMetres, "m");
        return depthMetres / (2 * DiffusionLength(diffusivitySquareMetresPerSecond, elapsed));
    }

    /// <summary>The surface is set to Tₛ: (T − Tᵢ)/(Tₛ − Tᵢ) = erfc(ξ).</summary>
    /// <param name="similarity">ξ, 0 or more.</param>
    /// <returns>The share of the step that has arrived, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">ξ is negative or not a number.</exception>
    public static double SurfaceStepResponse(double similarity) => ComplementaryError.Of(FormulaInput.NotNegative(similarity, ""));

    /// <summary>Convection begins at the surface: (T − Tᵢ)/(T∞ − Tᵢ) = erfc(ξ) − exp(−ξ²)·erfcx(ξ + b), b = h·√(a·t)/k.</summary>
    /// <remarks>The same as erfc(ξ) − exp(2ξb + b²)·erfc(ξ + b), written so that it does not overflow for large b.</remarks>
    /// <param name="similarity">ξ, 0 or more.</param>
    /// <param name="convection">b = h·√(a·t)/k, 0 or more.</param>
    /// <returns>The share of the step that has arrived, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static double ConvectionResponse(double similarity, double convection)
    {
        FormulaInput.NotNegative(similarity, "");
        FormulaInput.NotNegative(convection, "");
        var answer = ComplementaryError.Of(similarity)
            - (Math.Exp(-similarity * similarity) * ComplementaryError.Scaled(similarity + convection));
        return Math.Clamp(answer, 0, 1);
    }

    /// <summary>b = h·√(a·t)/k, for <see cref="ConvectionResponse"/>.</summary>
    /// <param name="hWattsPerSquareMetreKelvin">h, in W/(m² K), 0 or more.</param>
    /// <param name="diffusivitySquareMetresPerSecond">a, in m²/s, above 0.</param>
    /// <param name="conductivityWattsPerMetreKelvin">k, in W/(m K), above 0.</param>
    /// <param name="elapsed">t, above 0.</param>
    /// <returns>b, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double ConvectionNumber(
        double hWattsPerSquareMetreKelvin, double diffusivitySquareMetresPerSecond, double conductivityWattsPerMetreKelvin, TimeSpan elapsed)
    {
        FormulaInput.NotNegative(hWattsPerSquareMetreKelvin, "W/(m² K)");
        FormulaInput.Positive(conductivityWattsPerMetreKelvin, "W/(m K)");
        return hWattsPerSquareMetreKelvin * DiffusionLength(diffusivitySquareMetresPerSecond, elapsed) / conductivityWattsPerMetreKelvin;
    }

    /// <summary>A constant heat flux q enters: T − Tᵢ = (2q/k)·√(a·t/π)·exp(−ξ²) − (q·x/k)·erfc(ξ).</summary>
    /// <param name="fluxWattsPerSquareMetre">q, in W/m², positive into the body.</param>
    /// <param name="conductivityWattsPerMetreKelvin">k, in W/(m K), above 0.</param>
    /// <param name="diffusivitySquareMetresPerSecond">a, in m²/s, above 0.</param>
    /// <param name="depthMetres">x, in m, 0 or more.</param>
    /// <param name="elapsed">t, above 0.</param>
    /// <returns>The rise at that depth.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static Kelvins FluxRise(
        double fluxWattsPerSquareMetre,
        double conductivityWattsPerMetreKelvin,
        double diffusivitySquareMetresPerSecond,
        double depthMetres,
        TimeSpan elapsed)
    {
        FormulaInput.Finite(fluxWattsPerSquareMetre, "W/m²");
        FormulaInput.Positive(conductivityWattsPerMetreKelvin, "W/(m K)");
        var xi = Similarity(depthMetres, diffusivitySquareMetresPerSecond, elapsed);
        var gradient = fluxWattsPerSquareMetre / conductivityWattsPerMetreKelvin;
        var reach = 2 * DiffusionLength(diffusivitySquareMetresPerSecond, elapsed) / Math.Sqrt(Math.PI);
        return new((gradient * reach * Math.Exp(-xi * xi)) - (gradient * depthMetres * ComplementaryError.Of(xi)));
    }

    /// <summary>δ = √(2a/ω) = √(a·P/π): the depth at which a periodic surface temperature is down to 1/e.</summary>
    /// <param name="diffusivitySquareMetresPerSecond">a, in m²/s, above 0.</param>
    /// <param name="period">P, above 0.</param>
    /// <returns>δ, in m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is zero, negative or not a number.</exception>
    public static double PenetrationDepthMetres(double diffusivitySquareMetresPerSecond, TimeSpan period) =>
        DiffusionLength(diffusivitySquareMetresPerSecond, period) / Math.Sqrt(Math.PI);

    /// <summary>What is left of a periodic surface temperature at a depth: exp(−x/δ), with a lag of x/δ.</summary>
    /// <param name="depthMetres">x, in m, 0 or more.</param>
    /// <param name="diffusivitySquareMetresPerSecond">a, in m²/s, above 0.</param>
    /// <param name="period">P, above 0.</param>
    /// <returns>The ratio of amplitudes and the lag.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static PeriodicResponse Periodic(double depthMetres, double diffusivitySquareMetresPerSecond, TimeSpan period)
    {
        var depths = FormulaInput.NotNegative(depthMetres, "m") / PenetrationDepthMetres(diffusivitySquareMetresPerSecond, period);
        return new(Math.Exp(-depths), depths);
    }

    private static double DiffusionLength(double diffusivitySquareMetresPerSecond, TimeSpan elapsed) => Math.Sqrt(
        FormulaInput.Positive(diffusivitySquareMetresPerSecond, "m²/s") * FormulaInput.Positive(elapsed.TotalSeconds, "s", nameof(elapsed)));
}
