using System.Globalization;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>Reads the blank-separated rows of a published table.</summary>
internal static class PublishedTable
{
    public static IEnumerable<string[]> Rows(string text) =>
        text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries));

    public static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);

    public static ConductionGeometry Geometry(string cell) => cell switch
    {
        "wall" => ConductionGeometry.PlaneWall,
        "cylinder" => ConductionGeometry.LongCylinder,
        "sphere" => ConductionGeometry.Sphere,
        _ => throw new ArgumentException($"'{cell}' is no geometry.", nameof(cell)),
    };
}
