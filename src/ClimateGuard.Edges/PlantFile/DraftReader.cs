using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>A YAML text read into a draft: its tree, the draft (as far as its form allows) and the problems of form.</summary>
internal sealed record DraftReading<T>(FileNode? Root, T? Draft, IReadOnlyList<LocatedProblem> Problems)
    where T : class
{
    /// <summary>The places whose value is wrong in form; what it might mean is not asked.</summary>
    public IReadOnlySet<string> WrongValues { get; init; } = new HashSet<string>();
}

/// <summary>Reads a YAML text into the draft its schema describes.</summary>
internal static class DraftReader
{
    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    public static DraftReading<T> Read<T>(string file, string text, FormSchema schema)
        where T : class
    {
        if (FileText.Check(file, text) is { } unfit)
        {
            return new DraftReading<T>(null, null, [unfit]);
        }

        var (root, broken) = YamlTree.Read(file, text);
        if (root is null)
        {
            return new DraftReading<T>(null, null, broken);
        }

        if (root is FileScalar { IsPlain: true } nothing && CoreScalar.Of(nothing) == CoreScalar.Meaning.Nothing)
        {
            return new DraftReading<T>(null, null, [new LocatedProblem(file, 0, 0, "", YamlMessages.Empty())]);
        }

        var json = NodeJson.Of(root, schema.Walk, schema.Walk.Root);
        var form = schema.Check(root, json);
        foreach (var problem in form.Where(p => p.IsUnusable && p.Path.Length > 0))
        {
            Remove(json, problem.Path);
        }

        var draft = json is JsonObject && !form.Any(p => p.IsUnusable && p.Path.Length == 0) ? json.Deserialize<T>(Options) : null;
        return new DraftReading<T>(root, draft, [.. broken, .. form.Select(p => Located(file, root, p.Path, p.Message))])
        {
            WrongValues = form.Where(p => !p.IsAbsence).Select(p => p.Path).ToHashSet(StringComparer.Ordinal),
        };
    }

    public static LocatedProblem Located(string file, FileNode root, string path, string message)
    {
        var (line, column) = FilePointer.Place(root, path);
        return new LocatedProblem(file, line, column, path, message);
    }

    /// <summary>Takes a value out that cannot be read; in a list nothing stays in its place, so that the others keep theirs.</summary>
    private static void Remove(JsonNode? json, string path)
    {
        var segments = FilePointer.Segments(path);
        for (var i = 0; i < segments.Count - 1; i++)
        {
            json = json switch
            {
                JsonArray list => list[int.Parse(segments[i], System.Globalization.CultureInfo.InvariantCulture)],
                JsonObject keys => keys[segments[i]],
                _ => null,
            };
        }

        if (json is JsonArray items)
        {
            items[int.Parse(segments[^1], System.Globalization.CultureInfo.InvariantCulture)] = null;
        }
        else if (json is JsonObject keys && segments.Count > 0)
        {
            keys.Remove(segments[^1]);
        }
    }
}
