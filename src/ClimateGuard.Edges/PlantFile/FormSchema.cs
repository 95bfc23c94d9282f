using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>A JSON schema with our sentence for each way a file can fail it.</summary>
internal sealed class FormSchema
{
    private const string Embedded = "plant.schema.json";

    private static readonly Lazy<FormSchema> PlantSchema = new(() => new FormSchema(Text()));
    private static readonly Lazy<FormSchema> MaterialsSchema = new(() => new FormSchema(MaterialsText()));

    private readonly JsonSchema schema;

    private FormSchema(string text)
    {
        // each schema has its own registry: the same id built twice is an error in the shared one
        schema = JsonSchema.FromText(text, new BuildOptions { SchemaRegistry = new SchemaRegistry() });
        Walk = new SchemaWalk((JsonObject)JsonNode.Parse(text)!);
    }

    /// <summary>The schema of a plant file.</summary>
    public static FormSchema Plant => PlantSchema.Value;

    /// <summary>The schema of a material library; the same keys as the materials of a plant file.</summary>
    public static FormSchema Materials => MaterialsSchema.Value;

    public SchemaWalk Walk { get; }

    /// <summary>The JSON schema of the plant file as shipped.</summary>
    public static string Text()
    {
        using var stream = typeof(FormSchema).Assembly.GetManifestResourceStream(Embedded)
            ?? throw new InvalidOperationException($"{Embedded} is not in the assembly");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    /// <summary>Everything in which a file differs from the schema.</summary>
    public IReadOnlyList<FormProblem> Check(FileNode root, JsonNode? json)
    {
        var result = schema.Evaluate(
            JsonSerializer.SerializeToElement(json), new EvaluationOptions { OutputFormat = OutputFormat.List });
        if (result.IsValid)
        {
            return [];
        }

        var failed = (result.Details ?? []).Append(result).Where(d => d.Errors is { Count: > 0 }).ToList();
        if (failed.Count == 0)
        {
            // a refusal that names no keyword must not pass for a valid file
            return [new FormProblem("", "the file does not follow the schema")];
        }

        // anyOf stands only at alpha, to warn editors of values in 1/K; the list names its branches even where another one holds,
        // and the checks of meaning say it better
        var sentences = new SchemaSentences(root, Walk);
        return [.. failed
            .Where(d => !d.EvaluationPath.ToString().Contains("/anyOf", StringComparison.Ordinal))
            .SelectMany(d => d.Errors!.Keys.SelectMany(keyword => sentences.For(d.InstanceLocation.ToString(), keyword)))
            .Distinct()];
    }

    private static string MaterialsText()
    {
        var plant = (JsonObject)JsonNode.Parse(Text())!;
        return new JsonObject
        {
            ["$schema"] = plant["$schema"]!.DeepClone(),
            ["$ref"] = "#/$defs/materialsFile",
            ["$defs"] = plant["$defs"]!.DeepClone(),
        }.ToJsonString();
    }
}
