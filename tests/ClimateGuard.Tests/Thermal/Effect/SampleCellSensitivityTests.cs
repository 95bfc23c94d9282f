using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Effect;

/// <summary>What one kelvin of the part alone does to each feature of the sample cell, in µm/K (computed for the invented shop).</summary>
public sealed class SampleCellSensitivityTests
{
    private static readonly Cell Sample = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;

    [Theory]
    [InlineData("PC-620", "M2", "bores", 4.4, 1.7)] // part only µm/K, K allowed; half a unit of the last digit
    [InlineData("VP-210", "M1", "holes", 1.7, 3.5)]
    [InlineData("VP-210", "M6", "thickness", 0.28, 4.3)]
    [InlineData("OB-900", "M2", "dowels", 49.5, 0.35)]
    [InlineData("PH-340", "M1", "bore-distance", 2.4, 1.5)]
    [InlineData("FD-1100", "M3", "bolt-circle", 10.4, 1.7)]
    [InlineData("FD-1100", "M3", "pilot", 8.1, 0.74)]
    [InlineData("BH-420", "M2", "bore", 1.9, 1.4)]
    [InlineData("LD-320", "M5", "openings", 3.2, 0.74)]
    [InlineData("VR-780", "M4", "groove", 11.0, 0.68)]
    [InlineData("VR-780", "M4", "holes", 11.7, 2.05)]
    public void One_kelvin_of_the_part(string part, string machine, string feature, double micrometres, double allowed)
    {
        var (model, effect) = Find(part, machine, feature);
        var found = Math.Abs(effect.At(model, Some.StateOf(model, 21, 20)).EffectMicrometres);
        Assert.Equal(micrometres, found, micrometres < 1 ? 0.005 : 0.051);
        Assert.Equal(allowed, effect.BudgetMicrometres / found, 0.055);
    }

    [Fact]
    public void Part_and_scale_together_move_the_bench_plate_less()
    {
        var (model, effect) = Find("OB-900", "M4", "dowels");
        Assert.Equal(27.7, effect.At(model, Some.StateOf(model, 21, 21)).EffectMicrometres, 0.06);
    }

    [Theory]
    [InlineData("PC-620", "M2", "bores", 3.75)]
    [InlineData("VP-210", "M6", "thickness", 1.2)]
    [InlineData("PH-340", "M1", "bore-distance", 3.6)]
    [InlineData("FD-1100", "M3", "bolt-circle", 9)]
    [InlineData("BH-420", "M2", "coaxiality", 0.6)] // pivot drift comes back four times
    [InlineData("LD-320", "M5", "openings", 1.2)]
    [InlineData("VR-780", "M4", "groove-depth", 6)]
    public void What_drift_may_take(string part, string machine, string feature, double micrometres)
    {
        var (model, effect) = Find(part, machine, feature);
        var validity = ProbeValidity.For(model, model.Settled(new Surroundings(20)), effect, new Surroundings(20), Sample.Description.Policies);
        Assert.Equal(micrometres, validity!.DriftBudgetMicrometres, 1e-9);
    }

    [Fact]
    public void The_halves_of_a_housing_cut_with_a_half_turn_must_be_probed_again_within_the_hour()
    {
        var (model, effect) = Find("BH-420", "M2", "coaxiality");
        var validity = ProbeValidity.For(model, model.Settled(new Surroundings(20)), effect, new Surroundings(21), Sample.Description.Policies)!;
        Assert.True(validity.WhenProbedNow < TimeSpan.FromHours(2), validity.ToString());
        Assert.Equal(Axis.X, validity.Axis);
    }

    private static (ThermalModel Model, FeatureModel Effect) Find(string part, string machine, string feature)
    {
        var model = new ThermalModel(Sample.FindMachine(machine)!, Sample.FindPart(part));
        return (model, model.Effects.Single(effect => effect.Feature.Id == feature));
    }
}
