using System.Text.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>An alert as JSON.</summary>
public static class AlertJson
{
    /// <summary>The alert as one UTF-8 JSON object.</summary>
    public static byte[] ToUtf8(AlertRaised raised)
    {
        ArgumentNullException.ThrowIfNull(raised);
        return JsonText.ToUtf8(raised, static (writer, value) => Write(writer, value));
    }

    /// <summary>Writes the alert as one JSON object: <c>time, id, machine, cause, text, action, cleared</c>.</summary>
    public static void Write(Utf8JsonWriter writer, AlertRaised raised)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(raised);
        writer.WriteStartObject();
        writer.WriteTime("time", raised.Time);
        writer.WriteString("id", raised.Alert.Id);
        writer.WriteString("machine", raised.Alert.Machine);
        writer.WriteString("cause", raised.Alert.Cause);
        writer.WriteString("text", raised.Alert.Text);
        writer.WriteString("action", raised.Alert.Action);
        writer.WriteBoolean("cleared", raised.Alert.Cleared);
        writer.WriteEndObject();
    }
}
