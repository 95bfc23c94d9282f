using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Two layers held together without slip, such as a plate bolted to a sub-plate: they bow when the temperature changes.</summary>
/// <remarks>
/// κ = 6·(α₂ − α₁)·ΔT·(1 + m)²/(H·(3(1 + m)² + (1 + m·n)·(m² + 1/(m·n)))), m = h₁/h₂, n = E₁/E₂, H = h₁ + h₂. Source: Timoshenko,
/// Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11 (1925) 233. Immutable, so safe across threads.
/// </remarks>
public sealed record TwoLayerStrip
{
    /// <summary>The first layer.</summary>
    public required StripLayer First { get; init; }

    /// <summary>The second layer.</summary>
    public required StripLayer Second { get; init; }

    /// <summary>The curvature after a change of temperature of the whole strip, positive when the second layer grows more.</summary>
    /// <param name="change">ΔT since the layers were joined free of stress.</param>
    /// <returns>κ, in 1/m; <see cref="GradientBow"/> turns it into a bow.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value of a layer lies outside its range, or the change is not a number.</exception>
    public double CurvaturePerMetre(Kelvins change)
    {
        FormulaInput.Finite(change.Value, "K", nameof(change));
        First.Check(nameof(First));
        Second.Check(nameof(Second));
        var m = First.ThicknessMillimetres / Second.ThicknessMillimetres;
        var n = First.ModulusGigapascals / Second.ModulusGigapascals;
        var heightMetres = (First.ThicknessMillimetres + Second.ThicknessMillimetres) / 1000;
        var strain = (Second.AlphaMicrometresPerMetreKelvin - First.AlphaMicrometresPerMetreKelvin) * 1e-6 * change.Value;
        var square = (1 + m) * (1 + m);
        return 6 * strain * square / (heightMetres * ((3 * square) + ((1 + (m * n)) * ((m * m) + (1 / (m * n))))));
    }

    /// <summary>The sag in the middle over a length: κ·L²/8.</summary>
    /// <param name="change">ΔT since the layers were joined free of stress.</param>
    /// <param name="lengthMillimetres">L, in mm, 0 or more.</param>
    /// <returns>The bow, in µm, positive when the second layer grows more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public double BowMicrometres(Kelvins change, double lengthMillimetres) =>
        GradientBow.BowMicrometres(CurvaturePerMetre(change), lengthMillimetres);
}
