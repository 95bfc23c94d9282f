using System.Security.Cryptography;
using System.Text;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>Reads plant files: YAML, checked by schema and by meaning, every problem with its line.</summary>
public static class PlantFileReader
{
    /// <summary>The JSON schema (2020-12) of the plant file, as shipped in <c>config/plant.schema.json</c>.</summary>
    public static string SchemaText() => FormSchema.Text();

    /// <summary>Reads a plant file, and a <c>materials.yaml</c> beside it in place of the shipped material library.</summary>
    /// <param name="path">Path of the file; a missing or unreadable one gives one problem, not an exception.</param>
    /// <param name="running">The cell that runs: what cannot be changed while it does is then a problem too. Null when none runs.</param>
    /// <exception cref="ArgumentNullException">The path is null.</exception>
    public static PlantFileResult Read(string path, Cell? running = null)
    {
        ArgumentNullException.ThrowIfNull(path);
        var (bytes, unreadable) = FileText.Bytes(path);
        if (bytes is null)
        {
            return new PlantFileResult(null, [unreadable!], "");
        }

        var beside = Path.Combine(Path.GetDirectoryName(path) ?? "", MaterialLibrary.FileName);
        var (library, libraryText, libraryBytes) = Beside(beside);
        var version = Version(bytes, libraryBytes);
        var (text, problem) = FileText.Decode(path, bytes);
        return text is null
            ? new PlantFileResult(null, [problem!, .. library.Problems], version)
            : Parse(path, text, library, version, running) with { Text = text, Materials = libraryText };
    }

    /// <summary>What tells whether the file or a <c>materials.yaml</c> beside it changed: their version, or why they cannot be read.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ArgumentNullException">The path is null.</exception>
    public static string Fingerprint(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        var (bytes, unreadable) = FileText.Bytes(path);
        var beside = Path.Combine(Path.GetDirectoryName(path) ?? "", MaterialLibrary.FileName);
        var (materials, without) = File.Exists(beside) ? FileText.Bytes(beside) : ([], null);
        return (unreadable ?? without)?.ToString() ?? Version(bytes!, materials!);
    }

    /// <summary>Reads the text of a plant file with the shipped material library.</summary>
    /// <param name="name">What problems call the file.</param>
    /// <param name="text">The text.</param>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    public static PlantFileResult Parse(string name, string text)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(text);
        return Parse(name, text, MaterialLibrary.Shipped, Version(Encoding.UTF8.GetBytes(text), []));
    }

    /// <summary>Reads the text of a plant file with the text of a material library.</summary>
    /// <param name="name">What problems call the plant file.</param>
    /// <param name="text">The text of the plant file.</param>
    /// <param name="materialsName">What problems call the library.</param>
    /// <param name="materialsText">The text of the library.</param>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    public static PlantFileResult Parse(string name, string text, string materialsName, string materialsText)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(materialsName);
        ArgumentNullException.ThrowIfNull(materialsText);
        var version = Version(Encoding.UTF8.GetBytes(text), Encoding.UTF8.GetBytes(materialsText));
        return Parse(name, text, MaterialLibrary.Parse(materialsName, materialsText), version);
    }

    private static PlantFileResult Parse(string name, string text, MaterialLibrary library, string version, Cell? running = null)
    {
        var reading = DraftReader.Read<CellDraft>(name, text, FormSchema.Plant);
        if (reading is not { Root: { } root, Draft: { } draft })
        {
            return new PlantFileResult(null, Ordered([.. reading.Problems, .. library.Problems]), version);
        }

        var context = new PlantContext(library.Materials, TimeZones.IsKnown, TimeZones.Names);
        var limits = FindingLimits.Problems(draft.Policies?.Findings ?? new Dictionary<string, IReadOnlyDictionary<string, double>?>());
        var meaning = PlantChecks.Of(draft, context).Concat(limits).Where(p => !reading.WrongValues.Contains(p.Path))
            .Select(p => DraftReader.Located(name, root, p.Path, p.Message));
        var fixedNow = running is null ? [] : OnlyByRestart.Problems(draft, running).Select(p => DraftReader.Located(name, root, p.Path, p.Message));
        var notes = PlantChecks.NotUsed(draft).Select(p => DraftReader.Located(name, root, p.Path, p.Message));
        var problems = Ordered([.. reading.Problems, .. meaning, .. fixedNow, .. library.Problems]);
        var cell = problems.Count == 0 ? new Cell(CellBuilder.Build(draft, context)) : null;
        return new PlantFileResult(cell, problems, version) { Notes = [.. notes] };
    }

    private static (MaterialLibrary Library, string? Text, byte[] Bytes) Beside(string path)
    {
        if (!File.Exists(path))
        {
            return (MaterialLibrary.Shipped, null, []);
        }

        var (bytes, unreadable) = FileText.Bytes(path);
        if (bytes is null)
        {
            return (new MaterialLibrary([], [unreadable!]), null, []);
        }

        var (text, problem) = FileText.Decode(path, bytes);
        return (text is null ? new MaterialLibrary([], [problem!]) : MaterialLibrary.Parse(path, text), text, bytes);
    }

    private static IReadOnlyList<LocatedProblem> Ordered(IEnumerable<LocatedProblem> problems) =>
        [.. problems.Distinct().OrderBy(p => p.File, StringComparer.Ordinal).ThenBy(p => p.Line).ThenBy(p => p.Column)];

    private static string Version(byte[] plant, byte[] materials) =>
        Convert.ToHexStringLower(SHA256.HashData([.. plant, .. materials]))[..12];
}
