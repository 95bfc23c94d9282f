using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Roark's Formulas for Stress and Strain, thermal stress chapter, and Timoshenko, J. Opt. Soc. Am. 11 (1925) 233 (formulas from
/// memory, numbers constructed and recomputed; tolerance 1e-9 of the value unless a row says otherwise).
/// </summary>
public sealed class Timoshenko_Roark_Bending
{
    [Theory]
    [InlineData(2000, 400, 10.5, 1.0, 38095.238, 13.125, 26.25, 52.5)] // iron bed
    [InlineData(1000, 150, 6.5, 0.5, 46153.846, 2.708333333, 10.833333333, 10.833333333)] // granite plate
    [InlineData(1000, 50, 11.5, 1.0, 4347.826, 28.75, 115.0, 115.0)] // steel plate
    [InlineData(600, 25, 23.6, 1.0, 1059.322, 42.48, 283.2, 169.92)] // aluminium plate
    public void A_difference_across_a_body_bows_it(
        double length, double thickness, double alpha, double across, double radiusMetres, double bow, double slope, double tip)
    {
        var curvature = GradientBow.CurvaturePerMetre(alpha, new(across), thickness);
        Within.Relative(radiusMetres, GradientBow.RadiusMetres(alpha, new(across), thickness), 1e-6);
        Within.Relative(bow, GradientBow.BowMicrometres(curvature, length), 1e-9);
        Within.Relative(slope, GradientBow.EndSlopeMicroradians(curvature, length), 1e-9);
        Within.Relative(tip, GradientBow.CantileverTipMicrometres(curvature, length), 1e-9);
    }

    [Fact]
    public void A_surface_plate_sags_corner_to_corner() => Within.Absolute(
        4.231771, GradientBow.PlateMicrometres(GradientBow.CurvaturePerMetre(6.5, new(0.5), 150), 1000, 750), 1e-6);

    [Fact]
    public void A_column_leans_from_its_warm_side()
    {
        // Column 2 m, 0.5 K over 0.6 m, α 11.5: α·g·H²/2 = 19.17 µm and α·g·H = 19.17 µrad (19 and 19)
        var curvature = GradientBow.CurvaturePerMetre(11.5, new(0.5), 600);
        Within.Absolute(19.167, GradientBow.CantileverTipMicrometres(curvature, 2000), 1e-3);
        Within.Absolute(19.167, GradientBow.TipAngleMicroradians(curvature, 2000), 1e-3);
    }

    [Fact]
    public void A_disc_dishes_from_edge_to_centre() => // α·g·R²/2: 11.5e-6 · 1 K/0.05 m · 0.3²/2 = 10.35 µm
        Within.Absolute(10.35, GradientBow.DiscMicrometres(GradientBow.CurvaturePerMetre(11.5, new(1), 50), 300), 1e-9);

    [Fact]
    public void A_body_without_a_difference_is_straight() =>
        Assert.Equal(double.PositiveInfinity, GradientBow.RadiusMetres(11.5, new(0), 50));

    [Theory]
    [InlineData(1, 11.5, 200, 1, 23.6, 200, 10, 0.09075)] // equal layers: 1.5·Δα·ΔT/H
    [InlineData(10, 11.5, 200, 20, 23.6, 69, 5, 0.00300751669)] // steel on aluminium
    public void Two_layers_curve(double h1, double alpha1, double e1, double h2, double alpha2, double e2, double change, double curvature)
    {
        var strip = new TwoLayerStrip { First = new(h1, alpha1, e1), Second = new(h2, alpha2, e2) };
        Within.Relative(curvature, strip.CurvaturePerMetre(new(change)), 1e-8);
    }

    [Fact]
    public void Two_layers_bow_over_a_length() => Within.Absolute(
        93.984897, new TwoLayerStrip { First = new(10, 11.5, 200), Second = new(20, 23.6, 69) }.BowMicrometres(new(5), 500), 1e-5);

    [Fact]
    public void A_bolted_aluminium_plate_on_steel_bows_56_micrometres()
    {
        // 30 + 30 mm, 900 mm, 2 K: factor 1.385 at a modulus ratio of 1/3 gives 56 µm, equal moduli (factor 1.5) 61 µm
        Within.Absolute(56, new TwoLayerStrip { First = new(30, 11.5, 210), Second = new(30, 23.6, 70) }.BowMicrometres(new(2), 900), 0.8);
        Within.Absolute(61, new TwoLayerStrip { First = new(30, 11.5, 210), Second = new(30, 23.6, 210) }.BowMicrometres(new(2), 900), 0.8);
        var factor = new TwoLayerStrip { First = new(30, 11.5, 210), Second = new(30, 23.6, 70) }.CurvaturePerMetre(new(2)) / (12.1e-6 * 2 / 0.06);
        Within.Absolute(1.385, factor, 5e-4);
    }

    [Theory]
    [InlineData(205, 11.7, 10, 23.985)] // steel
    [InlineData(113.8, 8.6, 10, 9.7868)] // Ti-6Al-4V
    public void A_clamped_bar_is_stressed(double modulus, double alpha, double change, double megapascals) =>
        Within.Relative(megapascals, ClampedBar.StressMegapascals(modulus, alpha, new(change)), 1e-9);

    [Theory]
    [InlineData(60, 53e-6, 7, 0.5)] // t²/(π²·a), seconds: 60 mm aluminium, 90 mm steel, 60 mm 316L
    [InlineData(90, 12.1e-6, 68, 0.5)]
    [InlineData(60, 3.8e-6, 96, 0.5)]
    public void A_gradient_through_a_part_decays_fast(double thicknessMillimetres, double diffusivity, double seconds, double tolerance)
    {
        // The slowest antisymmetric mode of a plate with no exchange is the full thickness as π: τ = t²/(π²·a), which is that of a wall
        // of half thickness t/2 with a fixed surface, 4·(t/2)²/(π²·a).
        var plate = new Material
        {
            Id = "plate",
            AlphaMicrometresPerMetreKelvin = 12,
            ConductivityWattsPerMetreKelvin = diffusivity * 1e6,
            DensityKilogramsPerCubicMetre = 1000,
            SpecificHeatJoulesPerKilogramKelvin = 1000,
        };
        var half = thicknessMillimetres / 2000;
        var inside = ConductionModes.EffectiveTimeConstant(PartShape.Slab, half, half, plate, 10)
            - LumpedConduction.TimeConstant(half, plate, 10);
        Within.Absolute(seconds, inside.TotalSeconds, tolerance);
    }
}
