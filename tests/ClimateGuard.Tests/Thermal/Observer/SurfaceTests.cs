using ClimateGuard.Plant;
using ClimateGuard.Tests.Thermal.Risk;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Observer;

/// <summary>A thermometer on a part shows its surface, which under coolant is nearer to the coolant than the mean that the length follows.</summary>
public sealed class SurfaceTests
{
    private static readonly Part Thick = Shop.Carrier with { VolumeToAreaMillimetres = 40, HalfThicknessMillimetres = 40, Shape = PartShape.Slab };

    /// <summary>The exact series of a plane wall (its values are checked against published ones beside <see cref="TransientConduction"/>).</summary>
    [Theory]
    [InlineData(4)]
    [InlineData(10)]
    [InlineData(15)]
    public void Mean_and_surface_under_coolant_are_those_of_the_exact_series(double minutes)
    {
        var (model, state) = Flooded(30, TimeSpan.FromMinutes(minutes));
        var material = Thick.Material;
        var biot = Thick.HeatTransfer.Flood * 0.040 / material.ConductivityWattsPerMetreKelvin;
        var fourier = material.DiffusivitySquareMetresPerSecond * minutes * 60 / (0.040 * 0.040);

        Assert.Equal(20 + (10 * TransientConduction.Mean(ConductionGeometry.PlaneWall, biot, fourier)), model.PartTemperature(state).Value, 0.06);
        Assert.Equal(20 + (10 * TransientConduction.Surface(ConductionGeometry.PlaneWall, biot, fourier)), model.SurfaceTemperature(state).Value, 0.25);
        Assert.True(model.PartTemperature(state).Value - model.SurfaceTemperature(state).Value > 0.02);
    }

    [Fact]
    public void A_true_reading_of_the_surface_leaves_the_mean_where_it_is()
    {
        var (model, state) = Flooded(30, TimeSpan.FromMinutes(10));
        var mean = model.PartTemperature(state).Value;

        model.ObserveContact(state, model.SurfaceTemperature(state), new Kelvins(0.05));
        Assert.Equal(mean, model.PartTemperature(state).Value, 1e-9);

        // Taken for the mean it would have pulled it along.
        model.ObserveContact(state, new Celsius(mean), new Kelvins(0.05));
        Assert.True(model.PartTemperature(state).Value > mean + 0.1);
    }

    [Fact]
    public void In_air_one_node_stands_for_both()
    {
        var model = new ThermalModel(Shop.Horizontal, Thick);
        var state = Shop.Loaded(model, 25);
        model.Advance(state, new Surroundings(20), TimeSpan.FromHours(1));
        Assert.Equal(model.PartTemperature(state).Value, model.SurfaceTemperature(state).Value, 1e-12);
    }

    private static (ThermalModel Model, ThermalState State) Flooded(double celsius, TimeSpan time)
    {
        var model = new ThermalModel(Shop.Horizontal, Thick);
        var state = Shop.Loaded(model, celsius, u: 0.5);
        model.Advance(state, new Surroundings(20, Medium.Flood, 20), time);
        return (model, state);
    }
}
