using System.Globalization;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Support;

/// <summary>Labelled days of two air handlers from open data, read in place: Granderson et al., Scientific Data 7 (2020) 65.</summary>
internal static class OpenAirHandlerDays
{
    /// <summary>Column of the file to role at the air handler, and whether it is a temperature in °F.</summary>
    private static readonly (string Column, string Role, bool Fahrenheit)[] Columns =
    [
        ("Supply Air Temperature", "supply", true), ("Return Air Temperature", "return", true),
        ("Mixed Air Temperature", "mixed", true), ("Outdoor Air Temperature", "outdoor", true),
        ("Supply Air Temperature Set Point", "supplySetpoint", true),
        ("Supply Air Temperature Heating Set Point", "heatingSetpoint", true),
        ("Supply Air Temperature Cooling Set Point", "coolingSetpoint", true),
        ("Supply Air Fan Status", "fanStatus", false), ("Supply Air Fan Speed Control Signal", "fanSpeed", false),
        ("Outdoor Air Damper Control Signal", "damperCommand", false),
        ("Cooling Coil Valve Control Signal", "coolingCommand", false),
        ("Heating Coil Valve Control Signal", "heatingCommand", false),
        ("Occupancy Mode Indicator", "occupied", false),
    ];

    /// <summary>The folder, beside the checkout.</summary>
    public static string Folder => Path.GetFullPath(Path.Combine(Repository.Root, "..", "shared", "data", "ahu"));

    /// <summary>Whether the data is there.</summary>
    public static bool Available => File.Exists(Path.Combine(Folder, "labels.csv"));

    /// <summary>Why a test of the data was left out.</summary>
    public static string Absent => $"The labelled air-handler days are not in {Folder}; see the README there for where they come from.";

    /// <summary>Component at fault by day; null on fault-free days.</summary>
    public static IReadOnlyDictionary<string, (string? Component, string Fault)> Labels(string unit) =>
        File.ReadLines(Path.Combine(Folder, "labels.csv")).Skip(1).Select(line => line.Split(',')).Where(cells => cells[0] == unit)
            .ToDictionary(cells => cells[1], cells => (cells[2].Length == 0 ? null : cells[2], $"{cells[3]} {cells[4]}".Trim()));

    /// <summary>A plant file as an outsider would write it for the columns of that unit.</summary>
    public static string PlantText(string unit)
    {
        var columns = ColumnsOf(unit).Select(c => c.Column).ToList();
        var sensors = columns.Select(c => c.Fahrenheit
            ? $"  - {{ id: ahu/{c.Role}, quantity: temperature, place: {Place(c.Role)}, airHandler: ahu, unit: F, periodS: 60 }}"
            : $"  - {{ id: ahu/{c.Role}, quantity: fraction, place: command, airHandler: ahu, unit: fraction, periodS: 60 }}");
        var points = columns.Select(c => $"      {c.Role}: ahu/{c.Role}");
        return $"""
            version: 1
            cell: test
            timeZone: UTC
            zones:
              - id: main
                airHandlers: [ahu]
            sensors:
            {string.Join('\n', sensors)}
            airHandlers:
              - id: ahu
                outdoorAir: true
                points:
            {string.Join('\n', points)}
            """;
    }

    /// <summary>The cell of that plant file.</summary>
    public static Cell CellOf(string unit)
    {
        var read = PlantFileReader.Parse($"{unit}.yaml", PlantText(unit));
        return read.Cell ?? throw new InvalidOperationException(string.Join("; ", read.Problems));
    }

    /// <summary>Every value of the file in °C and 0..1, in order; #VALUE! and the like are left out.</summary>
    public static IEnumerable<Reading> Readings(string unit, Cell cell)
    {
        var columns = ColumnsOf(unit).Select(c => (c.Index, c.Column.Fahrenheit, Sensor: cell.IndexOfSensor($"ahu/{c.Column.Role}"))).ToList();
        foreach (var line in File.ReadLines(Path.Combine(Folder, $"{unit}.csv")).Skip(1))
        {
            var cells = line.Split(',');
            var time = DateTime.ParseExact(cells[0], "M/d/yyyy H:mm", CultureInfo.InvariantCulture);
            var stamp = new DateTimeOffset(time, TimeSpan.Zero).ToUnixTimeMilliseconds();
            foreach (var (index, fahrenheit, sensor) in columns)
            {
                if (!double.TryParse(cells[index], CultureInfo.InvariantCulture, out var value)) continue;
                yield return new Reading(sensor, stamp, fahrenheit ? (value - 32) / 1.8 : value);
            }
        }
    }

    /// <summary>All days of a unit as signals.</summary>
    public static SignalFrame FrameOf(string unit, Cell cell)
    {
        var builder = new FrameBuilder(cell);
        foreach (var reading in Readings(unit, cell)) builder.Add(reading);
        return builder.Build();
    }

    private static string Place(string role) => role switch
    {
        "return" => "return",
        "mixed" => "mixed",
        "outdoor" => "outdoor",
        "supply" => "supply",
        _ => "command",
    };

    private static IEnumerable<((string Column, string Role, bool Fahrenheit) Column, int Index)> ColumnsOf(string unit)
    {
        var header = File.ReadLines(Path.Combine(Folder, $"{unit}.csv")).First().Split(',')
            .Select(name => name.Replace("AHU: ", "", StringComparison.Ordinal).Trim()).ToList();
        return Columns.Select(c => (c, header.IndexOf(c.Column))).Where(pair => pair.Item2 >= 0);
    }
}
