using System.Globalization;
using System.Text;

namespace ClimateGuard.Benchmarks.Shop;

/// <summary>The plant file of an invented large shop.</summary>
internal static class BigPlant
{
    public static string Text(int machines, int sensors, int features = 3)
    {
        var text = new StringBuilder("version: 1\ncell: big\nzones:\n");
        for (var z = 0; z < machines; z++)
        {
            text.Append(CultureInfo.InvariantCulture, $"  - {{ id: z{z} }}\n");
        }

        text.Append("sensors:\n");
        for (var s = 0; s < sensors; s++)
        {
            var m = s % machines;
            text.Append(s < machines * 3
                ? Line($"  - {{ id: s{s}, quantity: temperature, place: air, zone: z{m}, periodS: 1 }}")
                : s < machines * 4
                    ? Line($"  - {{ id: s{s}, quantity: temperature, place: coolant, machine: M{m}, periodS: 1 }}")
                    : Line($"  - {{ id: s{s}, quantity: temperature, place: structure, machine: M{m}, zone: z{m}, periodS: 1 }}"));
        }

        text.Append("machines:\n");
        for (var m = 0; m < machines; m++)
        {
            text.Append(Line($"  - id: M{m}\n    zone: z{m}\n    coolant: s{(machines * 3) + m}\n    drift:"));
            text.Append("      - { axis: x, sensitivityUmPerK: 3, timeConstantH: 6 }\n      - { axis: y, sensitivityUmPerK: 5, timeConstantH: 6 }\n");
            text.Append("      - { axis: z, sensitivityUmPerK: -2, timeConstantH: 0.8 }\n      - { axis: z, sensitivityUmPerK: 7, timeConstantH: 6 }\n");
        }

        text.Append("materials:\n  - { id: steel, alpha: 11.5, uAlpha: 0.5, conductivity: 45, density: 7850, specificHeat: 475, source: invented }\nparts:\n");
        for (var p = 0; p < 8; p++)
        {
            text.Append(Line($"  - number: P{p}\n    material: steel\n    volumeToAreaMm: {15 + (5 * p)}\n    features:"));
            for (var f = 0; f < features; f++)
            {
                text.Append(Feature(f));
            }
        }

        return text.ToString();
    }

    private static string Feature(int number) => (number % 3) switch
    {
        0 => Line($"      - {{ id: holes{number}, kind: position, toleranceMm: 0.06, datum: axis, boltCircle: {{ radiusMm: {350 - (5 * number)}, count: 16 }}, budgetUm: 18 }}"),
        1 => Line($"      - {{ id: bore{number}, kind: size, nominalMm: {240 - number}, toleranceMm: 0.02, budgetShare: 0.3 }}"),
        _ => Line($"      - {{ id: pocket{number}, kind: depth, nominalMm: {30 + number}, toleranceMm: 0.03, budgetShare: 0.3 }}"),
    };

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture) + "\n";
}
