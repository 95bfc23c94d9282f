using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Support;

/// <summary>A cell of one zone and one machine, small enough to follow by hand.</summary>
internal static class SmallCell
{
    public static Cell Of(Machine? machine = null, PartClass partClass = PartClass.Critical, params Feature[] features) => new(new CellDescription
    {
        Id = "small",
        Name = "Small cell",
        Zones = [new Zone { Id = "main" }],
        Sensors =
        [
            Air("air/a1"), Air("air/a2"), Air("air/a3"),
            Air("air/high") with { HeightMetres = 4.5 },
            new Sensor { Id = "m1/coolant", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Coolant, Machine = "M1" },
            new Sensor { Id = "m1/part", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Part, Machine = "M1" },
            new Sensor { Id = "m1/scale", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Scale, Machine = "M1" },
            new Sensor { Id = "hall", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Hall },
        ],
        Machines = [machine ?? Some.Machine()],
        Parts = [Some.Disc(features) with { Class = partClass }],
    });

    private static Sensor Air(string id) => new()
    {
        Id = id, Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air, Zone = "main", HeightMetres = 1.5,
    };
}
