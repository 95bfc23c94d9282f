using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>What the watch of a machine remembers, as JSON: so that a restart goes on where a crash ended it.</summary>
/// <remarks>
/// What can be worked out again is left out: the recent past of the chart, the ranked actions. A state that cannot be read, because another
/// version wrote it, is no state: the machine then begins anew, and says so.
/// </remarks>
public static class MachineStateJson
{
    private static readonly JsonSerializerOptions Options = WithoutWhatIsWorkedOutAgain(typeof(Trace), typeof(Prospect));

    // The chart is for people, the ranked actions stand in the outlooks that follow.
    private static readonly JsonSerializerOptions ExactOptions = WithoutWhatIsWorkedOutAgain(typeof(Trace));

    /// <summary>The state as JSON.</summary>
    /// <param name="state">The state.</param>
    public static string Text(MachineState state) => JsonSerializer.Serialize(state, Options);

    /// <summary>The state from JSON, or null with the reason.</summary>
    /// <param name="text">What <see cref="Text"/> wrote.</param>
    public static (MachineState? State, string? Reason) Read(string text) => Read(text, Options);

    /// <summary>The state as JSON with everything that later outlooks depend on, so that a replay goes on to the byte.</summary>
    /// <param name="state">The state.</param>
    public static string ExactText(MachineState state) => JsonSerializer.Serialize(state, ExactOptions);

    /// <summary>The state from what <see cref="ExactText"/> wrote, or null with the reason.</summary>
    /// <param name="text">The text.</param>
    public static (MachineState? State, string? Reason) ReadExact(string text) => Read(text, ExactOptions);

    private static JsonSerializerOptions WithoutWhatIsWorkedOutAgain(params Type[] types) => new()
    {
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        IgnoreReadOnlyProperties = true,
        Converters = { new JsonStringEnumConverter(), new ThermalStateConverter() },
        TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { type => LeaveOut(type, types), NameTheCases } },
    };

    private static (MachineState? State, string? Reason) Read(string text, JsonSerializerOptions options)
    {
        try
        {
            return (JsonSerializer.Deserialize<MachineState>(text, options), null);
        }
        catch (Exception unreadable) when (unreadable is JsonException or ArgumentException or NotSupportedException or InvalidOperationException)
        {
            return (null, unreadable.Message);
        }
    }

    private static void NameTheCases(JsonTypeInfo type)
    {
        if (type.Type != typeof(EarliestStart))
        {
            return;
        }

        type.PolymorphismOptions = new JsonPolymorphismOptions
        {
            TypeDiscriminatorPropertyName = "case",
            DerivedTypes =
            {
                new JsonDerivedType(typeof(SafeNow), "now"), new JsonDerivedType(typeof(SafeAt), "at"), new JsonDerivedType(typeof(NotWithinForecast), "notWithinForecast"),
            },
        };
    }

    private static void LeaveOut(JsonTypeInfo type, Type[] types)
    {
        for (var i = type.Properties.Count - 1; i >= 0; i--)
        {
            if (types.Contains(type.Properties[i].PropertyType))
            {
                type.Properties.RemoveAt(i);
            }
        }
    }

    private sealed class ThermalStateConverter : JsonConverter<ThermalState>
    {
        public override ThermalState? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        {
            var saved = JsonSerializer.Deserialize<Saved>(ref reader, options);
            return saved is null ? null : new ThermalState(saved.Mean, saved.Covariance) { PartMedium = saved.Medium };
        }

        public override void Write(Utf8JsonWriter writer, ThermalState value, JsonSerializerOptions options) =>
            JsonSerializer.Serialize(writer, new Saved(value.Means.ToArray(), value.Covariances.ToArray(), value.PartMedium), options);

        private sealed record Saved(double[] Mean, double[] Covariance, Medium Medium);
    }
}
