using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Edges.PlantFile;

public class SampleCellTests
{
    private static readonly Cell Sample = PlantFileReader.Read(Path.Combine(ReadingAPlantFileTests.Repository, "config", "plant.yaml")).Cell!;

    [Fact]
    public void It_has_thirty_three_analogue_sensors_of_which_eight_are_zone_air()
    {
        // Set points come out of a controller as numbers: they are signals, not sensors.
        var analogue = Sample.Sensors.Where(s => s.Place != SensorPlace.Command
            && s.Quantity is (SensorQuantity.Temperature or SensorQuantity.RelativeHumidity or SensorQuantity.Pressure)).ToList();
        Assert.Equal(33, analogue.Count);
        Assert.Equal(
            ["air/n1", "air/n2", "air/n3", "air/n4", "air/s1", "air/s2", "air/s3", "air/s4"],
            Sample.Sensors.Where(s => s is { Place: SensorPlace.Air, Quantity: SensorQuantity.Temperature, Zone: not null }).Select(s => s.Id));
        Assert.Null(Sample.Sensors[Sample.IndexOfSensor("cmm/air")].Zone);
        Assert.Equal(SensorPlace.Scale, Sample.Sensors[Sample.IndexOfSensor("m4/scaleguard")].Place);
    }

    [Fact]
    public void Its_machines_have_the_sensitivities_of_the_scenario()
    {
        Assert.Equal(["M1", "M2", "M3", "M4", "M5", "M6"], Sample.Machines.Select(m => m.Id));
        Assert.Equal([8.0, 10.5, 10.5, 10.5, 8.0, 11.5], Sample.Machines.Select(m => m.Scale.AlphaMicrometresPerMetreKelvin));
        Assert.Equal(["N", "N", "S", "S", "N", "S"], Sample.Machines.Select(m => m.Zone));
        var modes = Sample.FindMachine("M4")!.Drift.Where(d => d.Axis == Axis.Z).Select(d => (d.SensitivityMicrometresPerKelvin, d.TimeConstant.TotalHours));
        Assert.Equal([(-5.0, 1.2), (14.0, 14.0)], modes);
        Assert.Equal("store/pallet", Sample.FindMachine("M2")!.StorageSensor);
        Assert.Equal(("m5/dielectric", CoolantMedium.Submerged), (Sample.FindMachine("M5")!.CoolantSensor, Sample.FindMachine("M5")!.CoolantMedium));
        Assert.Equal([null, null, 225.0, 225.0, null, null], Sample.Machines.Select(m => m.RatePerHour));
        Assert.Equal(150, Sample.Description.Policies.Rates!.MachinePerHour);
        Assert.Equal(2, Sample.Description.Policies.Shifts.Count);
    }

    [Theory]
    [InlineData("PC-620", 11.5, 132, "7.5")]
    [InlineData("VP-210", 11.5, 47, "6 1.2")]
    [InlineData("OB-900", 23.8, 104, "17.5")]
    [InlineData("PH-340", 21.5, 24, "3.6")]
    [InlineData("FD-1100", 11.6, 342, "18 6")]
    [InlineData("BH-420", 10.8, 90, "2.7 2.4")]
    [InlineData("LD-320", 10.8, 92, "2.4")]
    [InlineData("VR-780", 16.0, 120, "7.5 24 6")]
    public void Its_parts_have_the_expansion_the_pace_and_the_budgets_of_the_scenario(string number, double alpha, double airMinutes, string budgetsUm)
    {
        var part = Sample.FindPart(number)!;
        Assert.Equal(alpha, part.Material.AlphaMicrometresPerMetreKelvin);
        var minutes = part.Material.VolumetricHeatJoulesPerCubicMetreKelvin * part.VolumeToAreaMillimetres / 1000 / part.HeatTransfer.Air / 60;
        Assert.Equal(airMinutes, minutes, 1.0);
        var budgets = part.Features.Select(f => f.Budget.MicrometresFor(f.ToleranceMillimetres).ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(budgetsUm, string.Join(' ', budgets));
    }

    [Fact]
    public void The_farthest_of_the_96_dowel_holes_is_1_04_metres_from_the_corner()
    {
        var dowels = Assert.IsType<PositionFeature>(Assert.Single(Sample.FindPart("OB-900")!.Features));
        Assert.Equal((96, DatumKind.Corner), (dowels.Points.Distinct().Count(), dowels.Datum));
        Assert.Equal(1040, dowels.Points.Max(p => p.Radius), 1.0);
        Assert.All(dowels.Points, p => Assert.True(p is { X: > 0 and < 900, Y: > 0 and < 600 }));
    }

    [Fact]
    public void Flood_over_the_flywheel_is_stronger_than_the_default() => Assert.Equal(600, Sample.FindPart("FD-1100")!.HeatTransfer.Flood);
}
