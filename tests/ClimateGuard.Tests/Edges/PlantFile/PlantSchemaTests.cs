using System.Reflection;
using System.Text.Json;
using System.Text.Json.Nodes;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Edges.PlantFile;

public class PlantSchemaTests
{
    private static readonly JsonObject Schema = (JsonObject)JsonNode.Parse(PlantFileReader.SchemaText())!;

    [Fact]
    public void Each_key_is_described_and_says_whether_it_is_required_or_what_stands_in()
    {
        var keys = Objects(Schema, "").SelectMany(o => ((JsonObject)o.Schema["properties"]!).Select(p => (Path: $"{o.Path}.{p.Key}", p.Value))).ToList();
        Assert.True(keys.Count > 100);
        Assert.All(keys, key => Assert.True(key.Value?["description"]?.GetValue<string>().Length > 5, $"{key.Path} is not described"));
        Assert.All(keys.Where(k => !k.Path.Contains(".points.", StringComparison.Ordinal)), key => Assert.Matches("[Rr]equired|[Dd]efault", key.Value!["description"]!.GetValue<string>()));
    }

    [Fact]
    public void No_object_takes_a_key_it_does_not_know() =>
        Assert.All(Objects(Schema, ""), o => Assert.False(o.Schema["additionalProperties"]?.GetValue<bool>() ?? true, o.Path));

    [Theory]
    [InlineData("", typeof(CellDraft))]
    [InlineData("zone", typeof(ZoneDraft))]
    [InlineData("sensor", typeof(SensorDraft))]
    [InlineData("calibration", typeof(CalibrationDraft))]
    [InlineData("airHandler", typeof(AirHandlerDraft))]
    [InlineData("machine", typeof(MachineDraft))]
    [InlineData("scale", typeof(ScaleDraft))]
    [InlineData("drift", typeof(DriftDraft))]
    [InlineData("spindle", typeof(SpindleDraft))]
    [InlineData("material", typeof(MaterialDraft))]
    [InlineData("part", typeof(PartDraft))]
    [InlineData("feature", typeof(FeatureDraft))]
    [InlineData("boltCircle", typeof(BoltCircleDraft))]
    [InlineData("screw", typeof(ScrewDraft))]
    [InlineData("fixturePin", typeof(FixturePinDraft))]
    [InlineData("bending", typeof(GradientBendDraft))]
    [InlineData("bolted", typeof(BoltedPlateDraft))]
    public void Each_key_of_the_schema_is_read_and_no_other(string definition, Type draft)
    {
        var schema = definition.Length == 0 ? Schema : (JsonObject)Schema["$defs"]![definition]!;
        var keys = ((JsonObject)schema["properties"]!).Select(p => p.Key).Order(StringComparer.Ordinal);
        var read = draft.GetProperties(BindingFlags.Public | BindingFlags.Instance).Select(p => JsonNamingPolicy.CamelCase.ConvertName(p.Name)).Order(StringComparer.Ordinal);
        Assert.Equal(keys, read);
    }

    [Fact]
    public void Each_key_of_a_set_back_is_read_and_no_other()
    {
        var schema = (JsonObject)Schema["$defs"]!["zone"]!["properties"]!["setBacks"]!["items"]!["properties"]!;
        Assert.Equal(schema.Select(p => p.Key), typeof(SetBackDraft).GetProperties().Select(p => JsonNamingPolicy.CamelCase.ConvertName(p.Name)));
    }

    [Theory]
    [InlineData("sensor", "quantity", typeof(SensorQuantity))]
    [InlineData("sensor", "place", typeof(SensorPlace))]
    [InlineData("sensor", "device", typeof(SensorDevice))]
    [InlineData("airHandler", "medium", typeof(CoolingMedium))]
    [InlineData("machine", "coolantMedium", typeof(CoolantMedium))]
    [InlineData("machine", "indexAxis", typeof(RotaryAxis))]
    [InlineData("drift", "axis", typeof(Axis))]
    [InlineData("drift", "provenance", typeof(Provenance))]
    [InlineData("screw", "axis", typeof(Axis))]
    [InlineData("bending", "body", typeof(BendingBody))]
    [InlineData("part", "shape", typeof(PartShape))]
    [InlineData("part", "class", typeof(PartClass))]
    [InlineData("feature", "kind", typeof(FeatureKind))]
    [InlineData("feature", "datum", typeof(DatumKind))]
    [InlineData("feature", "strategy", typeof(CuttingStrategy))]
    [InlineData("feature", "modifier", typeof(MaterialCondition))]
    public void Each_word_of_the_schema_is_a_word_of_the_trade_and_no_other(string definition, string key, Type words)
    {
        var allowed = ((JsonArray)Schema["$defs"]![definition]!["properties"]![key]!["enum"]!).Select(w => w!.GetValue<string>());
        Assert.Equal(Enum.GetNames(words).Select(JsonNamingPolicy.CamelCase.ConvertName).Order(StringComparer.Ordinal), allowed.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_units_of_the_schema_are_the_units_of_the_sensors()
    {
        var allowed = ((JsonArray)Schema["$defs"]!["sensor"]!["properties"]!["unit"]!["enum"]!).Select(w => w!.GetValue<string>());
        Assert.Equal(SensorUnits.ByQuantity.Values.SelectMany(u => u).Distinct().Order(StringComparer.Ordinal), allowed.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_schema_is_json_schema_2020_12() =>
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", Schema["$schema"]!.GetValue<string>());

    private static IEnumerable<(string Path, JsonObject Schema)> Objects(JsonNode? node, string path) => node switch
    {
        JsonObject o => (o["properties"] is JsonObject && o["type"]?.ToString() == "object" ? new[] { (path, o) } : [])
            .Concat(o.SelectMany(p => Objects(p.Value, $"{path}.{p.Key}"))),
        JsonArray a => a.SelectMany((item, i) => Objects(item, $"{path}[{i}]")),
        _ => [],
    };
}
