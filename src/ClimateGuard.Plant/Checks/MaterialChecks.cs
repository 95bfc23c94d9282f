namespace ClimateGuard.Plant;

/// <summary>Checks of the materials.</summary>
internal static class MaterialChecks
{
    public static void Run(CheckRun run, IReadOnlyList<MaterialDraft?> materials, string list)
    {
        run.Unique(materials, m => m.Id, "material", list, "id");
        foreach (var (index, material) in CheckRun.Numbered(materials))
        {
            var path = $"{list}/{index}";
            if (material.Alpha is { } alpha && LooksLikePerKelvin(alpha))
            {
                run.Add($"{path}/alpha", PlantMessages.AlphaPerKelvin(alpha));
            }

            if (material.Id is { } id && run.Materials.TryGetValue(id, out var merged))
            {
                foreach (var (key, meaning) in Missing(merged))
                {
                    run.Add(path, PlantMessages.MaterialValueMissing(id, key, meaning));
                }
            }
        }
    }

    /// <summary>A coefficient such as 11.5e-6 was meant per kelvin; ours are in µm/(m K), where no real one but 0 is that small.</summary>
    public static bool LooksLikePerKelvin(double alpha) => alpha != 0 && Math.Abs(alpha) < 0.001;

    private static IEnumerable<(string Key, string Meaning)> Missing(MaterialDraft material)
    {
        if (material.Alpha is null)
        {
            yield return ("alpha", "the expansion coefficient in µm/(m K), such as 11.5 for steel");
        }

        if (material.Conductivity is null)
        {
            yield return ("conductivity", "the thermal conductivity in W/(m K), such as 45 for steel");
        }

        if (material.Density is null)
        {
            yield return ("density", "the density in kg/m³, such as 7850 for steel");
        }

        if (material.SpecificHeat is null)
        {
            yield return ("specificHeat", "the specific heat in J/(kg K), such as 475 for steel");
        }
    }
}
