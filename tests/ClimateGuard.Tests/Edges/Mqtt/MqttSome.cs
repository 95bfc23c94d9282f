using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Edges.Mqtt;

/// <summary>A cell with one sensor of each quantity.</summary>
internal static class MqttSome
{
    internal static readonly DateTimeOffset Arrival = new(2026, 1, 10, 8, 0, 0, TimeSpan.Zero);

    internal static Cell Cell(params Sensor[] sensors) => new(new CellDescription { Id = "cell4", Name = "c", Zones = [], Sensors = sensors });

    internal static Sensor Sensor(string id, SensorQuantity quantity = SensorQuantity.Temperature, string unit = "C", string? topic = null) =>
        new() { Id = id, Quantity = quantity, Place = SensorPlace.Air, Unit = unit, Topic = topic };
}
