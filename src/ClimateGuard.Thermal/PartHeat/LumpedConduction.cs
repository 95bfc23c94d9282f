using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>A body with one temperature in a medium: the first-order node.</summary>
/// <remarks>
/// θ = exp(−t/τ), τ = ρ·c·(V/A)/h, for Bi = h·(V/A)/k below 0.1 (Incropera, Fundamentals of Heat and Mass Transfer, sections 5.1
/// and 5.2, from memory).
/// </remarks>
public static class LumpedConduction
{
    /// <summary>The Biot number, on V/A, up to which one temperature describes a body.</summary>
    public const double LargestBiot = 0.1;

    /// <summary>Bi = h·(V/A)/k, without unit.</summary>
    /// <param name="volumeToAreaMetres">Volume to cooled surface, in m, above 0.</param>
    /// <param name="material">The material, with a conductivity above 0.</param>
    /// <param name="hWattsPerSquareMetreKelvin">Heat transfer coefficient, in W/(m² K), above 0.</param>
    /// <returns>The Biot number.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is zero, negative or not a number.</exception>
    public static double Biot(double volumeToAreaMetres, Material material, double hWattsPerSquareMetreKelvin)
    {
        ArgumentNullException.ThrowIfNull(material);
        FormulaInput.Positive(volumeToAreaMetres, "m");
        FormulaInput.Positive(hWattsPerSquareMetreKelvin, "W/(m² K)");
        return hWattsPerSquareMetreKelvin * volumeToAreaMetres / FormulaInput.Positive(material.ConductivityWattsPerMetreKelvin, "W/(m K)");
    }

    /// <summary>τ = ρ·c·(V/A)/h.</summary>
    /// <param name="volumeToAreaMetres">Volume to cooled surface, in m, above 0.</param>
    /// <param name="material">The material, with density and specific heat above 0.</param>
    /// <param name="hWattsPerSquareMetreKelvin">Heat transfer coefficient, in W/(m² K), above 0.</param>
    /// <returns>The time in which 63 % of a difference is gone.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is zero, negative or not a number.</exception>
    public static TimeSpan TimeConstant(double volumeToAreaMetres, Material material, double hWattsPerSquareMetreKelvin)
    {
        ArgumentNullException.ThrowIfNull(material);
        FormulaInput.Positive(volumeToAreaMetres, "m");
        FormulaInput.Positive(hWattsPerSquareMetreKelvin, "W/(m² K)");
        return TimeSpan.FromSeconds(
            FormulaInput.Positive(material.VolumetricHeatJoulesPerCubicMetreKelvin, "J/(m³ K)") * volumeToAreaMetres / hWattsPerSquareMetreKelvin);
    }

    /// <summary>The share of a difference that is left after a time.</summary>
    /// <param name="elapsed">The time, 0 or more.</param>
    /// <param name="timeConstant">τ, above 0.</param>
    /// <returns>exp(−t/τ), in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A time is negative, or the time constant is zero.</exception>
    public static double ShareLeft(TimeSpan elapsed, TimeSpan timeConstant)
    {
        FormulaInput.NotNegative(elapsed.TotalSeconds, "s", nameof(elapsed));
        FormulaInput.Positive(timeConstant.TotalSeconds, "s", nameof(timeConstant));
        return Math.Exp(-elapsed / timeConstant);
    }

    /// <summary>The soak: t = τ·ln(|ΔT₀|/|ΔTᵣ|), zero when the residual is already reached.</summary>
    /// <remarks>10 % is left at 2.3 τ, 5 % at 3 τ, 1 % at 4.6 τ.</remarks>
    /// <param name="timeConstant">τ, above 0.</param>
    /// <param name="start">The first difference to the medium.</param>
    /// <param name="residual">The difference to reach, not 0.</param>
    /// <returns>The soak time, 0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time constant is zero or negative, the residual is 0 K, or a value is not a number.</exception>
    public static TimeSpan TimeToReach(TimeSpan timeConstant, Kelvins start, Kelvins residual)
    {
        FormulaInput.Positive(timeConstant.TotalSeconds, "s", nameof(timeConstant));
        FormulaInput.Finite(start.Value, "K", nameof(start));
        FormulaInput.Positive(Math.Abs(residual.Value), "K", nameof(residual));
        var ratio = Math.Abs(start.Value / residual.Value);
        return ratio <= 1 ? TimeSpan.Zero : timeConstant * Math.Log(ratio);
    }
}
