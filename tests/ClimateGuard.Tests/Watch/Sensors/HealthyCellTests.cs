using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

public sealed class HealthyCellTests
{
    internal static readonly Cell Sample = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;

    // The story trips a chiller, opens a door and brings cold blanks every 200 minutes; the shifts start and stop the machines.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void Of_a_healthy_cell_fewer_than_one_reading_in_a_thousand_is_set_aside_and_no_sensor_is_accused(int seed)
    {
        var cell = new TrustedCell(Sample, seed, new DateTimeOffset(2026, 3, 2, 0, 0, 0, TimeSpan.Zero), DemoScripts.CoolantTrip(Sample));
        cell.Run(TimeSpan.FromDays(4));

        Assert.True(cell.Readings > 1_000_000);
        Assert.True(cell.Quarantined.Values.Sum() < cell.Readings / 1000.0, cell.Summary());
        Assert.True(cell.Alerts.Count == 0, cell.Summary());
    }

    [Fact]
    public void A_cell_with_a_wild_room_is_no_reason_to_distrust_its_sensors()
    {
        var cell = new TrustedCell(Sample, 7, new DateTimeOffset(2026, 3, 2, 0, 0, 0, TimeSpan.Zero), Script.Cycles(TimeSpan.FromHours(4), number =>
        [
            new TimedAction(TimeSpan.FromHours(1), new MoveSetpoint("N", number % 2 == 0 ? 22.6 : 20.0)),
            new TimedAction(TimeSpan.FromHours(2), new MoveSetpoint("S", number % 2 == 0 ? 22.6 : 20.0)),
            new TimedAction(TimeSpan.FromHours(2.5), new MoveDoor("door/roller", Open: true)),
            new TimedAction(TimeSpan.FromHours(2.9), new MoveDoor("door/roller", Open: false)),
        ]));
        cell.Run(TimeSpan.FromDays(3));

        Assert.True(cell.Quarantined.Values.Sum() < cell.Readings / 1000.0, cell.Summary());
        Assert.True(cell.Alerts.Count == 0, cell.Summary());
    }
}
