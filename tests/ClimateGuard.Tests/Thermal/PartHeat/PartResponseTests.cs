using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.PartHeat;

public sealed class PartResponseTests
{
    [Fact]
    public void A_liquid_and_a_large_biot_number_take_two_nodes_and_a_gas_one()
    {
        var response = new PartResponse(Some.Disc() with { HeatTransfer = new HeatTransfer { Fan = 300, Flood = 600 } });
        Assert.Equal(1, response[Medium.Air].FirstWeight);
        Assert.Equal(1, response[Medium.Fan].FirstWeight);
        Assert.InRange(response[Medium.Flood].FirstWeight, 0.9, 0.9999);
        Assert.True(response[Medium.Flood].SecondSeconds < response[Medium.Flood].FirstSeconds / 5);
        Assert.Equal(1, new PartResponse(Some.Disc() with { HeatTransfer = new HeatTransfer { Mist = 40 } })[Medium.Mist].FirstWeight);
    }

    // Titanium plate of 60 mm in flood of 300: Bi 1.34; series of the plane wall (Incropera, section 5.5, from memory).
    [Theory]
    [InlineData(30)]
    [InlineData(120)]
    [InlineData(400)]
    [InlineData(1500)]
    public void The_mean_under_flood_follows_the_exact_series(double seconds)
    {
        var titanium = Some.Steel(8.6) with { ConductivityWattsPerMetreKelvin = 6.7, DensityKilogramsPerCubicMetre = 4430, SpecificHeatJoulesPerKilogramKelvin = 526 };
        var part = Some.Disc() with { Material = titanium, Shape = PartShape.Slab, HeatTransfer = new HeatTransfer { Flood = 300 } };
        var model = new ThermalModel(Some.Machine(), part);
        var state = Some.StateOf(model, 30, 20);
        model.Advance(state, new Surroundings(20, Medium.Flood, 20), TimeSpan.FromSeconds(seconds));

        var fourier = titanium.DiffusivitySquareMetresPerSecond * seconds / (0.03 * 0.03);
        var exact = TransientConduction.Mean(ConductionGeometry.PlaneWall, 300 * 0.03 / 6.7, fourier);
        Assert.Equal(exact, (model.PartTemperature(state).Value - 20) / 10, 0.012);
        var oneNode = Math.Exp(-seconds / ConductionModes.EffectiveTimeConstant(PartShape.Slab, 0.03, 0.03, titanium, 300).TotalSeconds);
        Assert.True(Math.Abs(exact - ((model.PartTemperature(state).Value - 20) / 10)) < Math.Abs(exact - oneNode));
    }

    [Fact]
    public void Coming_out_of_the_coolant_the_part_keeps_its_heat_and_what_is_known_of_it()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc() with { HeatTransfer = new HeatTransfer { Flood = 1000 } });
        var state = Some.StateOf(model, 30, 20);
        model.Advance(state, new Surroundings(20, Medium.Flood, 20), TimeSpan.FromSeconds(90));
        Assert.True(Math.Abs(state[StateLayout.PartFirst] - state[StateLayout.PartSecond]) > 0.5);
        var (mean, u) = (model.PartTemperature(state), model.PartUncertainty(state));
        model.EnterMedium(state, Medium.Air);
        Assert.Equal(mean.Value, model.PartTemperature(state).Value, 1e-12);
        Assert.Equal(u.Value, model.PartUncertainty(state).Value, 1e-12);
        model.EnterMedium(state, Medium.Flood);
        Assert.Equal(mean.Value, model.PartTemperature(state).Value, 1e-12);
    }

    [Fact]
    public void A_cold_pallet_pulls_a_part_that_came_warm()
    {
        var alone = new ThermalModel(Some.Machine(), Some.Disc());
        var standing = new ThermalModel(Some.Machine(), Some.Disc() with { HeatTransfer = new HeatTransfer { Pallet = 40 } });
        var (free, cold) = (Some.StateOf(alone, 20, 20), Some.StateOf(standing, 20, 20));
        ThermalModel.LoadPallet(cold, new Celsius(10), new Kelvins(2));
        alone.Advance(free, new Surroundings(20), TimeSpan.FromHours(1));
        standing.Advance(cold, new Surroundings(20), TimeSpan.FromHours(1));
        Assert.Equal(20, alone.PartTemperature(free).Value, 1e-9);
        Assert.InRange(standing.PartTemperature(cold).Value, 13, 17);
        Assert.True(standing.PartUncertainty(cold).Value > alone.PartUncertainty(free).Value + 0.5);
    }

    [Theory]
    [InlineData(null, OriginKind.Unknown, 4)]
    [InlineData("hall", OriginKind.Hall, 4)]
    [InlineData("storage", OriginKind.Storage, 2)]
    [InlineData("wash", OriginKind.Wash, 5)]
    [InlineData("M3", OriginKind.Machine, 1)]
    public void Where_a_part_comes_from_says_how_well_its_temperature_is_known(string? word, OriginKind kind, double kelvins)
    {
        var origin = Origin.Of(word);
        Assert.Equal(kind, origin.Kind);
        Assert.Equal(kelvins, origin.Uncertainty(new ThermalNoise()).Value);
        Assert.Equal(kind == OriginKind.Machine ? word : null, origin.Machine);
    }
}
