namespace ClimateGuard.Plant;

/// <summary>Makes the materials from the library and the plant file's changes.</summary>
internal static class MaterialBuilder
{
    public static IReadOnlyDictionary<string, Material> All(CellDraft draft, PlantContext context, DefaultsTaken taken)
    {
        var book = MaterialBook.Merge(context.Materials, draft.Materials);
        NoteDefaults(draft.Materials, book, taken);
        return book.ToDictionary(pair => pair.Key, pair => Build(pair.Value), StringComparer.Ordinal);
    }

    private static Material Build(MaterialDraft material)
    {
        var id = CellBuilder.Stated(material.Id, "/materials/id");
        var standIn = new Material
        {
            Id = id,
            AlphaMicrometresPerMetreKelvin = CellBuilder.Stated(material.Alpha, $"alpha of {id}"),
            ConductivityWattsPerMetreKelvin = CellBuilder.Stated(material.Conductivity, $"conductivity of {id}"),
            DensityKilogramsPerCubicMetre = CellBuilder.Stated(material.Density, $"density of {id}"),
            SpecificHeatJoulesPerKilogramKelvin = CellBuilder.Stated(material.SpecificHeat, $"specificHeat of {id}"),
        };
        return standIn with
        {
            Name = material.Name ?? id,
            UAlphaMicrometresPerMetreKelvin = material.UAlpha ?? standIn.UAlphaMicrometresPerMetreKelvin,
            Source = material.Source ?? standIn.Source,
            Provenance = material.Provenance ?? standIn.Provenance,
        };
    }

    private static void NoteDefaults(
        IReadOnlyList<MaterialDraft?>? own, IReadOnlyDictionary<string, MaterialDraft> book, DefaultsTaken taken)
    {
        foreach (var (index, material) in CheckRun.Numbered(own))
        {
            var path = $"/materials/{index}";
            var id = CellBuilder.Stated(material.Id, $"{path}/id");
            var merged = book[id];
            taken.Or(merged.Name, $"{path}/name", id);
            taken.Or(merged.UAlpha, $"{path}/uAlpha", 0.5);
            taken.Or(merged.Source, $"{path}/source", "not stated");
            taken.Or(merged.Provenance, $"{path}/provenance", Provenance.Default);
        }
    }
}
