using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>A bar held at both ends so that it cannot grow.</summary>
public static class ClampedBar
{
    /// <summary>σ = E·α·ΔT, pressing when the bar is warmer (Roark's Formulas for Stress and Strain, from memory).</summary>
    /// <param name="modulusGigapascals">E, in GPa, above 0.</param>
    /// <param name="alphaMicrometresPerMetreKelvin">α, in µm/(m K), in [-2, 40].</param>
    /// <param name="change">ΔT since it was clamped.</param>
    /// <returns>The stress, in MPa, positive for compression.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double StressMegapascals(double modulusGigapascals, double alphaMicrometresPerMetreKelvin, Kelvins change)
    {
        FormulaInput.Positive(modulusGigapascals, "GPa");
        FormulaInput.InRange(alphaMicrometresPerMetreKelvin, Expansion.LowestAlpha, Expansion.HighestAlpha, Expansion.AlphaUnit);
        FormulaInput.Finite(change.Value, "K", nameof(change));
        return modulusGigapascals * 1e3 * alphaMicrometresPerMetreKelvin * 1e-6 * change.Value;
    }
}
