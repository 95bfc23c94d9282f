using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Simulator;

/// <summary>The sample cell has the signals that a diagnosis of its air handlers needs, and the virtual cell speaks them.</summary>
public class SampleCellSignalTests
{
    private static readonly string[] Roles =
        ["supply", "return", "coolingCommand", "heatingCommand", "supplySetpoint", "coolingSetpoint", "fanStatus", "fanSpeed", "chilledWater"];

    [Fact]
    public void Every_air_handler_of_the_sample_cell_has_the_signals_of_a_diagnosis()
    {
        foreach (var unit in Sample().Description.AirHandlers) Assert.Empty(Roles.Except(unit.Points.Keys));
    }

    [Fact]
    public void The_signals_of_an_air_handler_say_what_it_does()
    {
        var cell = Sample();
        var story = Script.Once([new TimedAction(TimeSpan.FromMinutes(10), new SwitchFan("ahu2", false)), new TimedAction(TimeSpan.Zero, new MoveSetpoint("N", 20.7))]);
        var world = new VirtualCell(cell, new VirtualCellOptions(3, DemoScripts.ThursdayMorning(cell), story));
        var last = world.Advance(TimeSpan.FromMinutes(30)).Where(s => s.Event is null)
            .GroupBy(s => cell.Sensors[s.Reading.Sensor].Id).ToDictionary(g => g.Key, g => g.Last().Reading.Value);
        var (north, south) = (world.Room.FindAirHandler("ahu1")!, world.Room.FindAirHandler("ahu2")!);
        Assert.Equal(20.7, last["ahu1/setpoint"], 1e-9);
        Assert.Equal(20.0, last["ahu2/setpoint"], 1e-9);
        Assert.Equal(north.AskedCelsius, last["ahu1/supplyset"], 0.05);
        Assert.Equal(north.CoolingCommand, last["ahu1/valve"], 0.01);
        Assert.Equal((1.0, 1.0), (last["ahu1/fan"], last["ahu1/speed"]));
        Assert.Equal((0.0, 0.0), (last["ahu2/fan"], last["ahu2/speed"]));
        Assert.InRange(last["ahu1/filterdp"], 100, 140);
        Assert.False(south.Fan.Running);
    }

    private static Cell Sample() => PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
}
