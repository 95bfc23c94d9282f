using System.Text.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>A version of the plant file as it stands in the ledger, whole, so that an earlier one can be had back.</summary>
public static class PlantJson
{
    /// <summary>A version that is in force at the start: <c>configVersion, file, by, text, materials</c>.</summary>
    /// <param name="version">The version.</param>
    public static byte[] ToUtf8(PlantVersion version) => JsonText.ToUtf8(version, static (writer, value) =>
    {
        writer.WriteStartObject();
        Write(writer, value);
        writer.WriteEndObject();
    });

    /// <summary>A version that came into force while the cell ran: the same, with <c>before, differences, differencesLeftOut</c>.</summary>
    /// <param name="change">The change.</param>
    public static byte[] ToUtf8(PlantChange change) => JsonText.ToUtf8(change, static (writer, value) =>
    {
        writer.WriteStartObject();
        writer.WriteString("before", value.Before);
        writer.WriteStartArray("differences");
        foreach (var difference in value.Differences)
        {
            writer.WriteStringValue(difference);
        }

        writer.WriteEndArray();
        writer.WriteNumber("differencesLeftOut", value.DifferencesLeftOut);
        Write(writer, value.Next);
        writer.WriteEndObject();
    });

    /// <summary>Version and texts from a line of the ledger; null when it holds none.</summary>
    /// <param name="json">The content of the line.</param>
    public static (string Version, string Text, string? Materials)? Read(string json)
    {
        using var content = JsonDocument.Parse(json);
        var root = content.RootElement;
        return Text(root, "configVersion") is { } version && Text(root, "text") is { } text ? (version, text, Text(root, "materials")) : null;
    }

    private static string? Text(JsonElement root, string name) =>
        root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static void Write(Utf8JsonWriter writer, PlantVersion version)
    {
        writer.WriteString("configVersion", version.Version);
        writer.WriteString("file", version.File);
        writer.WriteString("by", version.By);
        writer.WriteString("text", version.Text);
        writer.WriteString("materials", version.Materials);
    }
}
