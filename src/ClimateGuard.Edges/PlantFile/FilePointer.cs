using System.Globalization;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>JSON pointers (RFC 6901) into a file's tree.</summary>
internal static class FilePointer
{
    public static string Append(string pointer, string key) =>
        $"{pointer}/{key.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}";

    public static string Append(string pointer, int index) => string.Create(CultureInfo.InvariantCulture, $"{pointer}/{index}");

    public static IReadOnlyList<string> Segments(string pointer) => pointer.Length == 0
        ? []
        : [.. pointer[1..].Split('/')
            .Select(s => s.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal))];

    public static string Parent(string pointer) => pointer[..Math.Max(0, pointer.LastIndexOf('/'))];

    /// <summary>The node at a pointer, or null.</summary>
    public static FileNode? Find(FileNode root, string pointer)
    {
        FileNode? node = root;
        foreach (var segment in Segments(pointer))
        {
            node = Step(node, segment)?.Node;
        }

        return node;
    }

    /// <summary>Line and column at which a person looks for a pointer; for what is not there, those of the thing around it.</summary>
    public static (int Line, int Column) Place(FileNode root, string pointer)
    {
        var node = root;
        var place = (root.Line, root.Column);
        foreach (var segment in Segments(pointer))
        {
            if (Step(node, segment) is not { } step)
            {
                break;
            }

            (node, place) = (step.Node, step.Place);
        }

        return place;
    }

    private static (FileNode Node, (int Line, int Column) Place)? Step(FileNode? node, string segment)
    {
        switch (node)
        {
            case FileMap map when map.Find(segment) is { } entry:
                // an empty value stands where the parser stopped looking for one; the key is where a person looks
                return (entry.Value, entry.Value is FileScalar { Text.Length: > 0 } value
                    ? (value.Line, value.Column)
                    : (entry.Line, entry.Column));
            case FileList list
                when int.TryParse(segment, NumberStyles.None, CultureInfo.InvariantCulture, out var i) && i < list.Items.Count:
                return (list.Items[i], (list.Items[i].Line, list.Items[i].Column));
            default:
                return null;
        }
    }
}
