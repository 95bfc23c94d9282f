using System.Globalization;
using System.Text.Json.Nodes;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>Says for each keyword of the schema that a place in the file fails: what was found, and what is allowed.</summary>
internal sealed class SchemaSentences(FileNode root, SchemaWalk walk)
{
    /// <summary>The problems that one failed keyword at one place stands for.</summary>
    public IEnumerable<FormProblem> For(string path, string keyword)
    {
        var node = FilePointer.Find(root, path);
        var schema = walk.At(path);
        var key = FilePointer.Segments(path) is [.., var last] ? last : "";
        return keyword switch
        {
            "required" => Required(path, node as FileMap, schema),
            "type" => [new FormProblem(path, Type(path, node, schema), IsUnusable: true)],
            "enum" => [new FormProblem(path, Enum(node, schema), IsUnusable: true)],
            "const" => [new FormProblem(path, $"{Named(path)} {Found(node)} is not known; allowed: {schema?["const"]}", IsUnusable: true)],
            "minimum" or "maximum" or "exclusiveMinimum" or "exclusiveMaximum" =>
                [new FormProblem(path, $"{Named(path)} {Written(node)} is out of range; allowed: {Range(schema)}{RangeHint(key, node)}")],
            "minItems" or "maxItems" => [new FormProblem(path, Items(path, node, schema))],
            "minLength" => [new FormProblem(path, $"{Named(path)} is an empty text; write one, or delete the line")],
            "maxLength" => [new FormProblem(path, $"{Named(path)} has {Length(node)} characters; allowed: at most {schema?["maxLength"]}")],
            "pattern" => [new FormProblem(path, $"{Named(path)} '{Written(node)}' is not allowed; allowed: {Comment(schema)}")],
            "" when schema is null => [new FormProblem(path, Unknown(path, key))],
            _ => [new FormProblem(path, $"{Named(path)} does not follow the schema ({keyword})")],
        };
    }

    private static IEnumerable<FormProblem> Required(string path, FileMap? map, JsonObject? schema)
    {
        foreach (var name in (schema?["required"] as JsonArray ?? []).Select(n => n!.GetValue<string>()))
        {
            if (map is not null && map.Find(name) is null)
            {
                yield return new FormProblem(path, $"{name} is missing {Where(path)}{About(schema?["properties"]?[name])}", IsAbsence: true);
            }
        }
    }

    private string Unknown(string path, string key)
    {
        if (key == "<<")
        {
            return "the key << (merge) is not part of YAML 1.2; write the keys out";
        }

        var known = (walk.At(FilePointer.Parent(path))?["properties"] as JsonObject ?? []).Select(p => p.Key).ToList();
        var comma = key.Length > 0 && key.All(char.IsAsciiDigit) ? "; was a decimal comma meant? write 11.5, not 11,5" : "";
        return $"key '{key}' is unknown {Where(FilePointer.Parent(path))}; {NearestNames.Hint(key, known)}{comma}";
    }

    private static string Type(string path, FileNode? node, JsonObject? schema)
    {
        var types = SchemaWalk.Types(schema);
        var allowed = string.Join(" or ", types.Where(t => !(t == "number" && types.Contains("string"))).Select(t => t switch
        {
            "number" => Range(schema) is { Length: > 0 } range ? $"a number {range}" : "a number",
            "integer" => Range(schema) is { Length: > 0 } range ? $"a whole number {range}" : "a whole number",
            "boolean" => "true or false",
            "string" => schema?["enum"] is JsonArray words ? $"one of {string.Join(", ", words)}" : "a text",
            "array" => "a list: [a, b] or one '- ' a line",
            _ => "keys of its own, indented below it",
        }));
        return $"{Named(path)} {(node is FileScalar ? "is " : "holds ")}{Found(node)}; allowed: {allowed}{TypeHint(node, types)}";
    }

    private static string TypeHint(FileNode? node, IReadOnlyList<string> types)
    {
        if (node is not FileScalar scalar)
        {
            return "";
        }

        return CoreScalar.Of(scalar) switch
        {
            CoreScalar.Meaning.Nothing => "; or delete the line",
            CoreScalar.Meaning.Truth when types.Contains("string") => $"; as a text write \"{scalar.Text}\" in quotes",
            CoreScalar.Meaning.Text when types.Contains("boolean") && scalar.Text.ToUpperInvariant() is "ON" or "OFF" or "YES" or "NO" =>
                $"; {scalar.Text} is a text in YAML 1.2",
            CoreScalar.Meaning.Text when !types.Contains("number") && !types.Contains("integer") => "",
            CoreScalar.Meaning.Text when CoreScalar.TryNumber(scalar.Text.Replace(',', '.'), out _) =>
                scalar.IsPlain ? "; write the decimal point as a point" : "; write it without quotes, with a point",
            CoreScalar.Meaning.Text when scalar.Text.Length > 0 && (char.IsAsciiDigit(scalar.Text[0]) || scalar.Text[0] is '-' or '+') =>
                "; write the number alone, its unit is in the key",
            _ => "",
        };
    }

    private static string Enum(FileNode? node, JsonObject? schema)
    {
        var words = (schema?["enum"] as JsonArray ?? []).Select(w => w!.GetValue<string>()).ToList();
        var near = NearestNames.To(Written(node), words);
        var hint = near.Count > 0 ? $"; did you mean {string.Join(" or ", near)}?" : "";
        return $"'{Written(node)}' is not allowed; allowed: {string.Join(", ", words)}{hint}";
    }

    private static string Items(string path, FileNode? node, JsonObject? schema)
    {
        var count = (node as FileList)?.Items.Count ?? 0;
        var (least, most) = ((int?)schema?["minItems"], (int?)schema?["maxItems"]);
        var allowed = least == most ? $"exactly {least}" : most is null ? $"{least} or more" : $"{least} to {most}";
        return $"{Named(path)} has {count} {(count == 1 ? "entry" : "entries")}; allowed: {allowed}{About(schema)}";
    }

    private static string Range(JsonObject? schema)
    {
        string? Bound(string keyword, string word) => schema?[keyword] is { } bound
            ? $"{word} {bound.GetValue<double>().ToString(CultureInfo.InvariantCulture)}"
            : null;
        return string.Join(" ", new[]
        {
            Bound("minimum", "from"), Bound("exclusiveMinimum", "above"), Bound("maximum", schema?["minimum"] is null ? "up to" : "to"),
            Bound("exclusiveMaximum", "and below"),
        }.Where(part => part is not null));
    }

    private static string RangeHint(string key, FileNode? node) =>
        key == "budgetShare" && CoreScalar.TryNumber(Written(node), out var percent) && percent is > 1 and <= 100
            ? $"; {Written(node)} % is written {(percent / 100).ToString(CultureInfo.InvariantCulture)}"
            : "";

    private static string Comment(JsonObject? schema) => schema?["$comment"]?.GetValue<string>() ?? "what the schema says";

    private static string About(JsonNode? schema) =>
        schema?["description"]?.GetValue<string>() is { } text ? $" ({text.Split(". ")[0].TrimEnd('.')})" : "";

    private static string Written(FileNode? node) => node is FileScalar scalar ? scalar.Text : Found(node);

    private static int Length(FileNode? node) => (node as FileScalar)?.Text.Length ?? 0;

    private static string Found(FileNode? node) => node switch
    {
        FileMap => "keys of its own",
        FileList => "a list",
        FileScalar scalar => CoreScalar.Of(scalar) switch
        {
            CoreScalar.Meaning.Nothing => "empty",
            CoreScalar.Meaning.NotFinite => $"{scalar.Text}, which is not a finite number",
            CoreScalar.Meaning.Text => $"the text '{scalar.Text}'",
            _ => scalar.Text,
        },
        _ => "nothing",
    };

    /// <summary>What a person calls the place: a key by its name, an entry of a list by its number.</summary>
    private static string Named(string path) => FilePointer.Segments(path) switch
    {
        [] => "the file",
        [.., var list, var index] when int.TryParse(index, CultureInfo.InvariantCulture, out var i) => $"entry {i + 1} of {list}",
        [.., var key] => key,
    };

    private static string Where(string path) => FilePointer.Segments(path) switch
    {
        [] => "at the top of the file",
        [.., var list, var index] when int.TryParse(index, CultureInfo.InvariantCulture, out var i) => $"in entry {i + 1} of {list}",
        [.., var key] => $"in {key}",
    };
}
