using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Time constants of plates from the first slab eigenvalue (Incropera, section 5.5), constructed and printed to two or three digits.
/// The exact one meets a row within 1 % or half a printed digit, the sum ρ·c·L/h + 4·L²/(π²·a) within 6 % more.
/// </summary>
public sealed class SlabEigenvalue_TimeConstants
{
    // ρ·c in MJ/(m³ K) and a in mm²/s as printed in handbook tables: steel, wrought aluminium, 316L, Ti-6Al-4V.
    private static Material Of(string name)
    {
        var (heat, diffusivity) = name switch
        {
            "steel" => (3.73e6, 12.1e-6),
            "aluminium" => (2.43e6, 53e-6),
            "316L" => (3.99e6, 3.8e-6),
            _ => (2.48e6, 2.8e-6),
        };
        return new()
        {
            Id = name,
            AlphaMicrometresPerMetreKelvin = 12,
            ConductivityWattsPerMetreKelvin = heat * diffusivity,
            DensityKilogramsPerCubicMetre = 1000,
            SpecificHeatJoulesPerKilogramKelvin = heat / 1000,
        };
    }

    [Theory]
    [InlineData("steel", 6, 52, 155, 311, 519, 832)] // minutes for half a thickness of 5, 15, 30, 50, 80 mm
    [InlineData("steel", 12, 26, 78, 156, 260, 417)]
    [InlineData("steel", 25, 12, 37, 75, 125, 202)]
    [InlineData("steel", 300, 1.0, 3.2, 6.6, 11.5, 20)]
    [InlineData("steel", 1000, 0.3, 1.0, 2.3, 4.3, 8.2)]
    [InlineData("aluminium", 12, 17, 51, 101, 169, 271)]
    [InlineData("316L", 12, 28, 83, 168, 281, 453)]
    [InlineData("316L", 300, 1.1, 3.7, 8.0, 15, 28)]
    [InlineData("titanium", 300, 0.7, 2.5, 6.0, 12, 25)]
    public void Plates_follow_their_surroundings(string name, double h, double at5, double at15, double at30, double at50, double at80)
    {
        double[] thicknesses = [5, 15, 30, 50, 80];
        double[] expected = [at5, at15, at30, at50, at80];
        for (var i = 0; i < expected.Length; i++)
        {
            var half = thicknesses[i] / 1000;
            var material = Of(name);
            var zeta = ConductionEigenvalues.Leading(ConductionGeometry.PlaneWall, h * half / material.ConductivityWattsPerMetreKelvin).Eigenvalue;
            var exact = half * half / (material.DiffusivitySquareMetresPerSecond * zeta * zeta * 60);
            var sum = ConductionModes.EffectiveTimeConstant(PartShape.Slab, half, half, material, h).TotalMinutes;
            var printedDigit = expected[i] == Math.Round(expected[i]) && expected[i] >= 10 ? 0.5 : 0.05;
            var rounding = Math.Max(printedDigit, expected[i] * 0.01);
            Within.Absolute(expected[i], exact, rounding, $"{name} h {h} {thicknesses[i]} mm");
            Within.Absolute(expected[i], sum, rounding + (expected[i] * 0.06), $"{name} h {h} {thicknesses[i]} mm, sum");
        }
    }

    [Fact]
    public void The_approximation_is_within_6_percent_of_the_exact_slab_up_to_a_biot_number_of_10()
    {
        var steel = Of("steel");
        const double half = 0.05;
        foreach (var biot in (double[])[0.01, 0.05, 0.1, 0.3, 0.5, 1, 2, 3, 5, 7, 10])
        {
            var h = biot * steel.ConductivityWattsPerMetreKelvin / half;
            var zeta = ConductionEigenvalues.Leading(ConductionGeometry.PlaneWall, biot).Eigenvalue;
            var exact = half * half / (steel.DiffusivitySquareMetresPerSecond * zeta * zeta);
            Within.Relative(exact, ConductionModes.EffectiveTimeConstant(PartShape.Slab, half, half, steel, h).TotalSeconds, 0.06, $"Bi {biot}");
        }
    }

    [Fact]
    public void A_heavy_cold_carrier_soaks_in_minutes_under_flood_and_in_hours_in_air()
    {
        // Iron carrier from 12 °C to within 1.2 K of 20 °C: 250 min at h 10, 100 min under a fan (h 25). One node, τ·ln(8/1.2) each,
        // so the ratio of the two is that of h.
        var tau = TimeSpan.FromMinutes(250 / 1.8971199848858813); // ln(8/1.2)
        Within.Absolute(250, LumpedConduction.TimeToReach(tau, new(-8), new(1.2)).TotalMinutes, 1e-6);
        Within.Absolute(100, LumpedConduction.TimeToReach(tau * (10.0 / 25), new(-8), new(1.2)).TotalMinutes, 1e-6);
        Assert.Equal(TimeSpan.Zero, LumpedConduction.TimeToReach(tau, new(1), new(-1.2)));
    }

    [Theory]
    [InlineData(0.10, 2.3)] // 10 % at 2.3 τ, 5 % at 3 τ, 1 % at 4.6 τ
    [InlineData(0.05, 3.0)]
    [InlineData(0.01, 4.6)]
    public void What_is_left_after_multiples_of_the_time_constant(double share, double multiples) =>
        Within.Absolute(multiples, LumpedConduction.TimeToReach(TimeSpan.FromHours(1), new(1), new(share)).TotalHours, 0.05);
}
