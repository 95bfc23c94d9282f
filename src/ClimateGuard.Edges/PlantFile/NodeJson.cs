using System.Text.Json.Nodes;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>Turns a file's tree into JSON for the schema and the draft.</summary>
internal static class NodeJson
{
    /// <summary>The JSON of a node; where the schema wants a text, a number stays the text that was written, such as "0815".</summary>
    public static JsonNode? Of(FileNode node, SchemaWalk walk, JsonObject? schema)
    {
        switch (node)
        {
            case FileMap map:
                var keys = new JsonObject();
                foreach (var entry in map.Entries)
                {
                    keys[entry.Key] = Of(entry.Value, walk, walk.Property(schema, entry.Key));
                }

                return keys;
            case FileList list:
                return new JsonArray([.. list.Items.Select(item => Of(item, walk, walk.Item(schema)))]);
            default:
                return Of((FileScalar)node, SchemaWalk.Types(schema).Contains("string"));
        }
    }

    private static JsonValue? Of(FileScalar scalar, bool asText)
    {
        switch (CoreScalar.Of(scalar))
        {
            case CoreScalar.Meaning.Nothing:
                return null;
            case CoreScalar.Meaning.Truth:
                return JsonValue.Create(CoreScalar.Truth(scalar));
            case CoreScalar.Meaning.Number when !asText && CoreScalar.TryNumber(scalar.Text, out var number):
                return Math.Abs(number) < 1e15 && number == Math.Floor(number) ? JsonValue.Create((long)number) : JsonValue.Create(number);
            default:
                // not a number and infinity have no JSON; as text they fail the schema where a number is wanted
                return JsonValue.Create(scalar.Text);
        }
    }
}
