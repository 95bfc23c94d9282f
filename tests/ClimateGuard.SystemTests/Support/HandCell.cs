namespace ClimateGuard.SystemTests.Support;

/// <summary>A cell small enough to check by hand: a steel disc (11.5 µm/(m K)) with 12 holes at 400 mm radius on a steel scale (11.5).</summary>
public static class HandCell
{
    private const string Yaml = """
        version: 1
        cell: hand
        zones:
          - { id: main }
        sensors:
          - { id: air/a1, quantity: temperature, place: air, zone: main }
        machines:
          - id: M1
            zone: main
            scale: { alpha: 11.5 }
        materials:
          - { id: hand-steel, alpha: 11.5, uAlpha: 0.5, conductivity: 45, density: 7850, specificHeat: 475, source: invented for a test }
        parts:
          - number: DISC
            material: hand-steel
            volumeToAreaMm: 30
            class: critical
            features:
              - { id: holes, kind: position, toleranceMm: 0.060, datum: axis, boltCircle: { radiusMm: 400, count: 12 }, budgetUm: 18 }
        """;

    /// <summary>Writes it into a folder of its own and says where.</summary>
    public static string Write()
    {
        var file = Path.Combine(Directory.CreateTempSubdirectory("climateguard-plant-").FullName, "plant.yaml");
        File.WriteAllText(file, Yaml);
        return file;
    }
}
