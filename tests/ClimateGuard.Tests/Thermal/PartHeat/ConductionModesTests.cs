using ClimateGuard.Plant;
using ClimateGuard.Tests.Published;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal;

public sealed class ConductionModesTests
{
    private static readonly Material Titanium = new()
    {
        Id = "Ti-6Al-4V",
        AlphaMicrometresPerMetreKelvin = 8.6,
        ConductivityWattsPerMetreKelvin = 6.7,
        DensityKilogramsPerCubicMetre = 4430,
        SpecificHeatJoulesPerKilogramKelvin = 526,
    };

    [Fact]
    public void A_part_in_air_is_one_node()
    {
        var modes = ConductionModes.For(PartShape.Slab, 0.03, 0.03, Titanium, 15); // Bi 0.067
        var mode = Assert.Single(modes);
        Assert.Equal(1, mode.Weight);
        Within.Absolute(4660.36 + 126.87, mode.TimeConstant.TotalSeconds, 0.1); // ρ·c·L/h = 4660.36 s, 4·L²/(π²·a) = 126.87 s
    }

    [Fact]
    public void A_part_under_flood_is_two_nodes()
    {
        var modes = ConductionModes.For(PartShape.Disc, 0.03, 0.03, Titanium, 400);
        Assert.Equal(2, modes.Count);
        Within.Absolute(1, modes[0].Weight + modes[1].Weight, 1e-15);
        Assert.True(modes[0].TimeConstant > modes[1].TimeConstant * 5);
    }

    [Theory]
    [InlineData(PartShape.Slab, 1.0)]
    [InlineData(PartShape.Disc, 10.0)]
    [InlineData(PartShape.Cylinder, 1.0)]
    [InlineData(PartShape.Cylinder, 10.0)]
    [InlineData(PartShape.Slab, 0.11)]
    public void Two_nodes_follow_the_exact_mean(PartShape shape, double seriesBiot)
    {
        const double half = 0.03;
        var volumeToArea = shape == PartShape.Cylinder ? half / 2 : half;
        var h = seriesBiot * 6.7 / half;
        var modes = ConductionModes.For(shape, half, volumeToArea, Titanium, h);
        Assert.Equal(2, modes.Count);
        var geometry = shape == PartShape.Cylinder ? ConductionGeometry.LongCylinder : ConductionGeometry.PlaneWall;
        for (var fourier = 0.0; fourier < 3; fourier += 0.01)
        {
            var elapsed = TimeSpan.FromSeconds(fourier * half * half / Titanium.DiffusivitySquareMetresPerSecond);
            var exact = TransientConduction.Mean(geometry, seriesBiot, fourier);
            // The second and all later modes share one rate: at most 4 % of the step while Fo < 0.1, and 4 in 1000 after.
            Within.Absolute(exact, ConductionModes.ShareLeft(modes, elapsed), fourier < 0.1 ? 0.04 : 4e-3, $"Fo {fourier}");
        }
    }

    [Theory]
    [InlineData(PartShape.Slab, 1.0, 1.0 + (1.0 / 3))] // lag behind a steady ramp, in Fo: 1/Bi + 1/3 for a slab, 1/(2·Bi) + 1/8 for a
    [InlineData(PartShape.Slab, 10.0, 0.1 + (1.0 / 3))] // cylinder (quasi-steady conduction with uniform sources)
    [InlineData(PartShape.Cylinder, 1.0, 0.5 + 0.125)]
    [InlineData(PartShape.Cylinder, 10.0, 0.05 + 0.125)]
    public void Two_nodes_lag_a_steady_ramp_like_the_body(PartShape shape, double seriesBiot, double lagFourier)
    {
        const double half = 0.03;
        var modes = ConductionModes.For(shape, half, shape == PartShape.Cylinder ? half / 2 : half, Titanium, seriesBiot * 6.7 / half);
        var lag = modes.Sum(mode => mode.Weight * mode.TimeConstant.TotalSeconds);
        Within.Relative(lagFourier, lag * Titanium.DiffusivitySquareMetresPerSecond / (half * half), 2e-3);
    }

    [Fact]
    public void The_step_from_one_node_to_two_is_small()
    {
        var below = ConductionModes.For(PartShape.Slab, 0.03, 0.03, Titanium, 0.0999 * 6.7 / 0.03);
        var above = ConductionModes.For(PartShape.Slab, 0.03, 0.03, Titanium, 0.1001 * 6.7 / 0.03);
        for (var minutes = 0; minutes < 600; minutes += 10)
        {
            var elapsed = TimeSpan.FromMinutes(minutes);
            Within.Absolute(ConductionModes.ShareLeft(below, elapsed), ConductionModes.ShareLeft(above, elapsed), 0.004);
        }
    }

    [Fact]
    public void More_surface_than_the_ideal_plate_follows_faster()
    {
        var plate = ConductionModes.For(PartShape.Slab, 0.03, 0.03, Titanium, 400)[0].TimeConstant;
        var ribbed = ConductionModes.For(PartShape.Slab, 0.03, 0.015, Titanium, 400)[0].TimeConstant;
        Assert.InRange(ribbed / plate, 0.5, 0.95);
    }

    [Theory]
    [InlineData(0, 0.03, 10)]
    [InlineData(0.03, -1, 10)]
    [InlineData(0.03, 0.03, 0)]
    [InlineData(0.03, 0.03, double.NaN)]
    public void A_part_without_size_or_exchange_is_refused(double half, double volumeToArea, double h) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductionModes.For(PartShape.Slab, half, volumeToArea, Titanium, h));
}
