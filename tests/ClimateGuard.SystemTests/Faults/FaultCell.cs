using System.Globalization;
using System.Text;
using ClimateGuard.Plant;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>A cell of many sensors, as a plant file for the worker and as a description for who looks into its store.</summary>
public static class FaultCell
{
    /// <summary>The sensors whose every reading is accounted for.</summary>
    public const int Sensors = 500;

    /// <summary>And those that send rubbish, numbered after them; what they say without a time may fall on any millisecond.</summary>
    public const int BadSensors = 20;

    public static string Topic(int sensor) => string.Create(CultureInfo.InvariantCulture, $"cg/faults/reading/{Id(sensor)}");

    public static string Id(int sensor) => string.Create(CultureInfo.InvariantCulture, $"air/s{sensor}");

    public static Cell Description { get; } = new(new CellDescription
    {
        Id = "faults",
        Name = "a cell that suffers",
        Zones = [],
        Sensors =
        [
            .. Enumerable.Range(0, Sensors + BadSensors).Select(sensor => new Sensor { Id = Id(sensor), Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air }),
        ],
    });

    /// <summary>Writes the plant file into a folder and says where.</summary>
    public static string Write(string folder)
    {
        var text = new StringBuilder("version: 1\ncell: faults\nzones:\n  - { id: main }\nsensors:\n");
        for (var sensor = 0; sensor < Sensors + BadSensors; sensor++)
        {
            text.Append(CultureInfo.InvariantCulture, $"  - {{ id: {Id(sensor)}, quantity: temperature, place: air, zone: main, periodS: 1 }}\n");
        }

        text.Append("machines:\n  - { id: M1, zone: main }\n");
        var file = Path.Combine(folder, "plant.yaml");
        File.WriteAllText(file, text.ToString());
        return file;
    }
}
