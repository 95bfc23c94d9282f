using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Watch.Sensors;

/// <summary>One zone with four air sensors that report once a minute, so that months take seconds.</summary>
internal static class QuietZone
{
    public static Cell Cell { get; } = new(new CellDescription
    {
        Id = "quiet",
        Name = "Quiet",
        Zones = [new Zone { Id = "main" }],
        Sensors = [.. Enumerable.Range(1, 4).Select(n => new Sensor
        {
            Id = $"air/a{n}",
            Quantity = SensorQuantity.Temperature,
            Place = SensorPlace.Air,
            Zone = "main",
            HeightMetres = 1.5,
            Uncertainty = 0.05,
            Period = TimeSpan.FromMinutes(1),
        })],
    });
}
