using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.PartHeat;

/// <summary>The soak numbers of the invented shop (computed from τ = ρc(V/A)/h with the resistance inside).</summary>
public sealed class SoakArithmeticTests
{
    private static readonly Cell Sample = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;

    // 148 kg of iron from 12 °C to within 1.2 K of 20 °C: 250 min in air, 100 under a fan, 7 in flood coolant.
    [Theory]
    [InlineData(Medium.Air, 250, 8)]
    [InlineData(Medium.Fan, 100, 5)]
    [InlineData(Medium.Flood, 7, 0.7)]
    public void A_cold_carrier_soaks_in_hours_and_is_rinsed_in_minutes(Medium medium, double minutes, double tolerance)
    {
        var model = new ThermalModel(Sample.FindMachine("M2")!, Sample.FindPart("PC-620"));
        var state = Some.StateOf(model, 12, 20);
        var elapsed = 0.0;
        while (20 - model.PartTemperature(state).Value > 1.2)
        {
            model.Advance(state, new Surroundings(20, medium, 20), TimeSpan.FromSeconds(6));
            elapsed += 0.1;
        }

        Assert.Equal(minutes, elapsed, tolerance);
    }

    // Plates of twice V/A; minutes, half a unit of the last digit printed or 2 %. The row of titanium is the exact eigenvalue (25.4 min), above
    // which the sum of the two resistances lies by up to 6 %.
    [Theory]
    [InlineData("steel", 5, 12, 26)]
    [InlineData("steel", 15, 6, 155)]
    [InlineData("steel", 30, 12, 156)]
    [InlineData("steel", 50, 25, 125)]
    [InlineData("steel", 30, 300, 6.6)]
    [InlineData("steel", 50, 1000, 4.3)]
    [InlineData("steel", 80, 300, 20)]
    [InlineData("aluminium", 30, 12, 101)]
    [InlineData("stainless", 50, 300, 15)]
    [InlineData("stainless", 80, 12, 453)]
    [InlineData("titanium", 80, 300, 25)]
    public void Time_constants_of_plates(string material, double volumeToArea, double h, double minutes)
    {
        // α of heat, ρ·c and k: only their combination counts.
        var (k, rhoC) = material switch
        {
            "steel" => (45.0, 3.73e6),
            "aluminium" => (130.0, 2.43e6),
            "stainless" => (15.0, 3.99e6),
            _ => (7.0, 2.48e6),
        };
        var solid = Some.Steel() with { ConductivityWattsPerMetreKelvin = k, DensityKilogramsPerCubicMetre = rhoC / 500, SpecificHeatJoulesPerKilogramKelvin = 500 };
        var found = ConductionModes.EffectiveTimeConstant(PartShape.Slab, volumeToArea * 1e-3, volumeToArea * 1e-3, solid, h).TotalMinutes;
        Assert.Equal(minutes, found, material == "titanium" ? 0.06 * minutes : Math.Max(0.02 * minutes, minutes >= 20 ? 0.5 : 0.05 * minutes));
    }

    // An unknown start of 3 K: 1.1 after one time constant, 0.4, 0.15, 0.05. An error of 40 % of τ with 8 K: 1.18, 0.87, 0.48.
    [Theory]
    [InlineData(1, 1.10, 1.18)]
    [InlineData(2, 0.41, 0.87)]
    [InlineData(3, 0.15, 0.48)]
    public void What_is_not_known_of_start_and_time_constant_fades_at_its_own_pace(double timeConstants, double fromStart, double fromTimeConstant)
    {
        var sure = new ThermalNoise { AirOffsetKelvins = 0, PartKelvins = 0, TimeConstantShare = 0 };
        Assert.Equal(fromStart, UncertaintyAfter(timeConstants, sure, 12, 3), 0.02);
        Assert.Equal(fromTimeConstant, UncertaintyAfter(timeConstants, sure with { TimeConstantShare = 0.4 }, 12, 0), 0.01);
    }

    private static double UncertaintyAfter(double timeConstants, ThermalNoise noise, double start, double kelvins)
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc(), noise);
        var state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(start), new Kelvins(kelvins));
        model.Advance(state, new Surroundings(20), model.Response!.TimeConstant(Medium.Air) * timeConstants);
        return model.PartUncertainty(state).Value;
    }
}
