namespace ClimateGuard.Plant;

/// <summary>The material library with the plant file's additions and changes on top.</summary>
internal static class MaterialBook
{
    /// <summary>Each material by id; a plant file's entry changes only the keys it states.</summary>
    public static IReadOnlyDictionary<string, MaterialDraft> Merge(
        IReadOnlyList<MaterialDraft?> library, IReadOnlyList<MaterialDraft?>? own)
    {
        var book = new Dictionary<string, MaterialDraft>(StringComparer.Ordinal);
        foreach (var (_, material) in CheckRun.Numbered(library))
        {
            if (material.Id is { } id)
            {
                book.TryAdd(id, material);
            }
        }

        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (_, change) in CheckRun.Numbered(own))
        {
            if (change.Id is { } id && seen.Add(id))
            {
                book[id] = book.TryGetValue(id, out var before) ? Changed(before, change) : change;
            }
        }

        return book;
    }

    private static MaterialDraft Changed(MaterialDraft before, MaterialDraft change) => new()
    {
        Id = before.Id,
        Name = change.Name ?? before.Name,
        Alpha = change.Alpha ?? before.Alpha,
        UAlpha = change.UAlpha ?? before.UAlpha,
        Conductivity = change.Conductivity ?? before.Conductivity,
        Density = change.Density ?? before.Density,
        SpecificHeat = change.SpecificHeat ?? before.SpecificHeat,

        // a handbook must not be named for a number it does not print
        Source = change.Source ?? $"changed in the plant file; unchanged numbers: {before.Source ?? "not stated"}",
        Provenance = change.Provenance ?? before.Provenance,
    };
}
