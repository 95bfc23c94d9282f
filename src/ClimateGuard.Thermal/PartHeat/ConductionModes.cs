using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>A part as one or two first-order nodes whose weighted sum is its mean temperature.</summary>
/// <remarks>
/// Up to Bi = h·(V/A)/k = 0.1 one node: τ = ρ·c·(V/A)/h + (internal time), the internal time being that of the body with a fixed
/// surface, 4·L²/(π²·a) for a slab or disc and r²/(2.4048²·a) for a cylinder. The sum of the two limits lies within 6 % of the exact
/// first slab eigenvalue up to Bi = 10. Above Bi = 0.1 two nodes: the exact first mode, and one node with all the weight that is
/// left and the mean time constant of the modes 2 to 12, weighted; so start and late stage are exact, and so, nearly, is the lag
/// behind a steady ramp. Eigenvalues: <see cref="ConductionEigenvalues"/>.
/// Where V/A is not that of the ideal body (L for a slab, r/2 for a cylinder), the surface counts as it is and the path of heat
/// inside as the half thickness: h is scaled by (ideal V/A)/(V/A).
/// </remarks>
public static class ConductionModes
{
    private const double FirstBesselZero = 2.404825557695773;
    private const int LumpedModes = 12;

    /// <summary>The nodes of a part in one medium, the slow one first.</summary>
    /// <param name="shape">The shape for conduction inside.</param>
    /// <param name="halfThicknessMetres">Half the thickness of a slab or disc, or the radius of a cylinder, in m, above 0.</param>
    /// <param name="volumeToAreaMetres">Volume to cooled surface, in m, above 0.</param>
    /// <param name="material">The material, with conductivity, density and specific heat above 0.</param>
    /// <param name="hWattsPerSquareMetreKelvin">Heat transfer to the medium, in W/(m² K), above 0.</param>
    /// <returns>One node, or two; the weights sum to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is zero, negative or not a number.</exception>
    public static IReadOnlyList<ConductionMode> For(
        PartShape shape, double halfThicknessMetres, double volumeToAreaMetres, Material material, double hWattsPerSquareMetreKelvin)
    {
        FormulaInput.Positive(halfThicknessMetres, "m");
        var biot = LumpedConduction.Biot(volumeToAreaMetres, material, hWattsPerSquareMetreKelvin);
        if (biot <= LumpedConduction.LargestBiot)
            return [new(1, EffectiveTimeConstant(shape, halfThicknessMetres, volumeToAreaMetres, material, hWattsPerSquareMetreKelvin))];

        var idealVolumeToArea = shape == PartShape.Cylinder ? halfThicknessMetres / 2 : halfThicknessMetres;
        var seriesBiot = hWattsPerSquareMetreKelvin * (idealVolumeToArea / volumeToAreaMetres) * halfThicknessMetres
            / material.ConductivityWattsPerMetreKelvin;
        var geometry = shape == PartShape.Cylinder ? ConductionGeometry.LongCylinder : ConductionGeometry.PlaneWall;
        var modes = ConductionEigenvalues.First(geometry, Math.Max(seriesBiot, ConductionEigenvalues.MinimumBiot), LumpedModes);
        var seconds = halfThicknessMetres * halfThicknessMetres / material.DiffusivitySquareMetresPerSecond;
        var leading = modes[0].MeanWeight;
        double weights = 0, times = 0;
        foreach (var mode in modes.Skip(1))
        {
            weights += mode.MeanWeight;
            times += mode.MeanWeight / (mode.Eigenvalue * mode.Eigenvalue);
        }

        return
        [
            new(leading, TimeSpan.FromSeconds(seconds / (modes[0].Eigenvalue * modes[0].Eigenvalue))),
            new(1 - leading, TimeSpan.FromSeconds(seconds * times / weights)),
        ];
    }

    /// <summary>τ of the mean temperature as the sum of what the surface and what the inside take.</summary>
    /// <remarks>ρ·c·(V/A)/h + 4·L²/(π²·a) for slab and disc, with r²/(2.4048²·a) as second term for a cylinder; from the slab and
    /// cylinder eigenvalues of Bi → 0 and Bi → ∞ (Incropera, section 5.5, from memory).</remarks>
    /// <param name="shape">The shape for conduction inside.</param>
    /// <param name="halfThicknessMetres">Half the thickness of a slab or disc, or the radius of a cylinder, in m, above 0.</param>
    /// <param name="volumeToAreaMetres">Volume to cooled surface, in m, above 0.</param>
    /// <param name="material">The material, with conductivity, density and specific heat above 0.</param>
    /// <param name="hWattsPerSquareMetreKelvin">Heat transfer to the medium, in W/(m² K), above 0.</param>
    /// <returns>The time constant; within 6 % of the exact slab up to Bi = 10.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is zero, negative or not a number.</exception>
    public static TimeSpan EffectiveTimeConstant(
        PartShape shape, double halfThicknessMetres, double volumeToAreaMetres, Material material, double hWattsPerSquareMetreKelvin)
    {
        ArgumentNullException.ThrowIfNull(material);
        FormulaInput.Positive(halfThicknessMetres, "m");
        var surface = LumpedConduction.TimeConstant(volumeToAreaMetres, material, hWattsPerSquareMetreKelvin);
        var diffusivity = FormulaInput.Positive(material.DiffusivitySquareMetresPerSecond, "m²/s");
        var zero = shape == PartShape.Cylinder ? FirstBesselZero : Math.PI / 2;
        return surface + TimeSpan.FromSeconds(halfThicknessMetres * halfThicknessMetres / (zero * zero * diffusivity));
    }

    /// <summary>The share of a first difference left in the mean after a time: Σ wᵢ·exp(−t/τᵢ).</summary>
    /// <param name="modes">The nodes of the part.</param>
    /// <param name="elapsed">The time, 0 or more.</param>
    /// <returns>The share, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative.</exception>
    public static double ShareLeft(IReadOnlyList<ConductionMode> modes, TimeSpan elapsed)
    {
        ArgumentNullException.ThrowIfNull(modes);
        FormulaInput.NotNegative(elapsed.TotalSeconds, "s", nameof(elapsed));
        var share = 0.0;
        foreach (var mode in modes) share += mode.Weight * Math.Exp(-elapsed / mode.TimeConstant);
        return share;
    }
}
