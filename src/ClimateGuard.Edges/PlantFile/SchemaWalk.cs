using System.Text.Json.Nodes;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>Finds the part of a schema that speaks of a place in the file; knows the keywords ours uses: properties, items, $ref.</summary>
internal sealed class SchemaWalk(JsonObject root)
{
    public JsonObject Root => Resolved(root);

    /// <summary>What the schema says of a key of a mapping, or null when it knows no such key.</summary>
    public JsonObject? Property(JsonObject? schema, string key) =>
        schema?["properties"]?[key] is JsonObject inside ? Resolved(inside) : null;

    /// <summary>What the schema says of the items of a list.</summary>
    public JsonObject? Item(JsonObject? schema) => schema?["items"] is JsonObject inside ? Resolved(inside) : null;

    /// <summary>What the schema says of a place in the file, or null.</summary>
    public JsonObject? At(string pointer)
    {
        JsonObject? schema = Root;
        foreach (var segment in FilePointer.Segments(pointer))
        {
            schema = schema?["items"] is null ? Property(schema, segment) : Item(schema);
        }

        return schema;
    }

    public static IReadOnlyList<string> Types(JsonObject? schema) => schema?["type"] switch
    {
        JsonArray several => [.. several.Select(t => t!.GetValue<string>())],
        JsonValue one => [one.GetValue<string>()],
        _ => [],
    };

    private JsonObject Resolved(JsonObject schema)
    {
        if (schema["$ref"]?.GetValue<string>() is not { } reference)
        {
            return schema;
        }

        JsonNode target = root;
        foreach (var segment in FilePointer.Segments(reference[1..]))
        {
            target = target[segment]!;
        }

        return (JsonObject)target;
    }
}
