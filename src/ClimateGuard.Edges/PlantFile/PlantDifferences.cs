using System.Globalization;
using ClimateGuard.Edges.Json;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>What differs between two versions of a plant file, in its own keys, such as <c>parts[DISC].features[holes].budgetUm: 18 → 12</c>.</summary>
public sealed record PlantDifferences
{
    /// <summary>The most lines.</summary>
    public const int MostLines = 50;

    private const int MostCharacters = 80;
    private static readonly string[] NamingKeys = ["id", "number", "name"];

    private readonly List<string> lines = [];

    private PlantDifferences()
    {
    }

    /// <summary>The first differences, in the order of the file; none when only comments or layout differ.</summary>
    public IReadOnlyList<string> Lines => lines;

    /// <summary>How many more there are.</summary>
    public int LeftOut { get; private set; }

    /// <summary>Compares two versions, plant file and material library; a text that is no YAML counts as empty.</summary>
    /// <param name="before">The plant file before.</param>
    /// <param name="after">The plant file after.</param>
    /// <param name="materialsBefore">The library before, or null for the one of the program.</param>
    /// <param name="materialsAfter">The library after.</param>
    public static PlantDifferences Between(string before, string after, string? materialsBefore = null, string? materialsAfter = null)
    {
        var found = new PlantDifferences();
        found.Compare("", Root(before), Root(after));
        found.Compare(MaterialLibrary.FileName, Root(materialsBefore), Root(materialsAfter));
        return found;
    }

    private static FileNode? Root(string? text) => text is null ? null : YamlTree.Read("", text).Root;

    private void Compare(string path, FileNode? before, FileNode? after)
    {
        switch (before, after)
        {
            case (null, null):
                break;
            case (null, _):
                Note($"{path}: added{Shown(after!)}");
                break;
            case (_, null):
                Note($"{path}: removed{Shown(before)}");
                break;
            case (FileMap old, FileMap now):
                CompareKeys(path, old, now);
                break;
            case (FileList old, FileList now) when IsNamed(old) && IsNamed(now):
                CompareNamed(path, old, now);
                break;
            case (FileList old, FileList now) when old.Items.Concat(now.Items).Any(item => item is FileMap):
                for (var i = 0; i < Math.Max(old.Items.Count, now.Items.Count); i++)
                {
                    Compare(FilePointer.Append(path, i), old.Items.ElementAtOrDefault(i), now.Items.ElementAtOrDefault(i));
                }

                break;
            default:
                if (Text(before) is var was && Text(after) is var became && was != became)
                {
                    Note($"{path}: {Clipped(was)} → {Clipped(became)}");
                }

                break;
        }
    }

    private void CompareKeys(string path, FileMap before, FileMap after)
    {
        foreach (var key in before.Entries.Concat(after.Entries).Select(entry => entry.Key).Distinct(StringComparer.Ordinal))
        {
            Compare(path.Length == 0 ? key : $"{path}.{key}", before.Find(key)?.Value, after.Find(key)?.Value);
        }
    }

    private void CompareNamed(string path, FileList before, FileList after)
    {
        var (old, now) = (ByName(before), ByName(after));
        foreach (var name in old.Keys.Concat(now.Keys).Distinct(StringComparer.Ordinal))
        {
            Compare($"{path}[{name}]", old.GetValueOrDefault(name), now.GetValueOrDefault(name));
        }

        if (old.Keys.Where(now.ContainsKey).SequenceEqual(now.Keys.Where(old.ContainsKey)) is false)
        {
            Note($"{path}: another order");
        }
    }

    private void Note(string line)
    {
        if (lines.Count < MostLines)
        {
            lines.Add(Printable.Clean(line, 400));
        }
        else
        {
            LeftOut++;
        }
    }

    private static bool IsNamed(FileList list) => list.Items.All(item => NameOf(item) is not null);

    private static string? NameOf(FileNode item) => item is FileMap map
        ? NamingKeys.Select(map.Find).OfType<FileEntry>().Select(entry => (entry.Value as FileScalar)?.Text).FirstOrDefault()
        : null;

    private static OrderedDictionary<string, FileNode> ByName(FileList list)
    {
        var named = new OrderedDictionary<string, FileNode>(StringComparer.Ordinal);
        foreach (var item in list.Items)
        {
            var name = NameOf(item)!;

            // A name that stands twice, such as two calibrations of one instance, is told apart by its place.
            named[named.ContainsKey(name) ? string.Create(CultureInfo.InvariantCulture, $"{name}#{named.Count}") : name] = item;
        }

        return named;
    }

    private static string Shown(FileNode node) => node is FileMap ? "" : $" {Clipped(Text(node))}";

    private static string Text(FileNode node) => node switch
    {
        FileScalar scalar => scalar.Text,
        FileList list => $"[{string.Join(", ", list.Items.Select(Text))}]",
        FileMap map => $"{{{string.Join(", ", map.Entries.Select(entry => $"{entry.Key}: {Text(entry.Value)}"))}}}",
        _ => "",
    };

    private static string Clipped(string text) => Printable.Clean(text, MostCharacters);
}
