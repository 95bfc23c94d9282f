using ClimateGuard.Plant;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>The material library: the one shipped, or a <c>materials.yaml</c> beside the plant file.</summary>
internal sealed record MaterialLibrary(IReadOnlyList<MaterialDraft?> Materials, IReadOnlyList<LocatedProblem> Problems)
{
    /// <summary>The name of the file, in the assembly and beside a plant file.</summary>
    public const string FileName = "materials.yaml";

    private static readonly Lazy<MaterialLibrary> Embedded = new(() => Parse(FileName, EmbeddedText()));

    /// <summary>The library shipped with the worker.</summary>
    public static MaterialLibrary Shipped => Embedded.Value;

    /// <summary>Reads a library and checks it.</summary>
    public static MaterialLibrary Parse(string file, string text)
    {
        var reading = DraftReader.Read<MaterialsDraft>(file, text, FormSchema.Materials);
        var materials = reading.Draft?.Materials ?? [];
        var meaning = reading.Root is { } root
            ? PlantChecks.OfLibrary(materials).Where(p => !reading.WrongValues.Contains(p.Path))
                .Select(p => DraftReader.Located(file, root, p.Path, p.Message))
            : [];
        return new MaterialLibrary(materials, [.. reading.Problems, .. meaning]);
    }

    private static string EmbeddedText()
    {
        using var stream = typeof(MaterialLibrary).Assembly.GetManifestResourceStream(FileName)
            ?? throw new InvalidOperationException($"{FileName} is not in the assembly");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    private sealed record MaterialsDraft
    {
        public IReadOnlyList<MaterialDraft?>? Materials { get; init; }
    }
}
