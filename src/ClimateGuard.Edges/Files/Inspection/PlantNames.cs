using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>Names of an inspection file against those of the plant file.</summary>
internal static class PlantNames
{
    /// <summary>The feature and hole that a name of the file means, by the mapping of the device; a hole stands after <c>#</c>.</summary>
    public static (Feature? Feature, int? Hole) Feature(Part part, string name, DeviceMapping? mapping)
    {
        var known = mapping?.Features.GetValueOrDefault(name) ?? name;
        var exact = part.Features.FirstOrDefault(feature => feature.Id == known);
        if (exact is not null || known.LastIndexOf('#') is not (> 0 and var at))
        {
            return (exact, null);
        }

        var hole = int.TryParse(known.AsSpan(at + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number is >= 1 and <= 100_000;
        return hole ? (part.Features.FirstOrDefault(feature => feature.Id == known[..at]), number) : (null, null);
    }

    public static string NoPart(Cell cell, string number) =>
        $"part {Printable.Clean(number, 60)} is not in the plant file; {NearestNames.Hint(number, [.. cell.Parts.Select(part => part.Number)])}";

    public static string NoFeature(Part part, string id) =>
        $"part {part.Number} has no feature {Printable.Clean(id, 60)}; {NearestNames.Hint(id, [.. part.Features.Select(feature => feature.Id)])}";

    public static string NoMachine(Cell cell, string id) =>
        $"machine {Printable.Clean(id, 60)} is not in the plant file; {NearestNames.Hint(id, [.. cell.Machines.Select(machine => machine.Id)])}";
}
