using System.Text.Json;

namespace ClimateGuard.Edges.Json;

/// <summary>Whether the worker is there, as JSON: <c>state, version, configVersion, since</c>.</summary>
public static class WorkerStatusJson
{
    /// <summary>The status as one UTF-8 JSON object.</summary>
    /// <param name="online">Whether it is there.</param>
    /// <param name="version">Version of the program.</param>
    /// <param name="configVersion">Version of the plant file in force.</param>
    /// <param name="since">Since when, or null: a last will is written before anyone knows when the worker will die.</param>
    public static byte[] ToUtf8(bool online, string version, string configVersion, DateTimeOffset? since) =>
        JsonText.ToUtf8((online, version, configVersion, since), static (writer, status) =>
        {
            writer.WriteStartObject();
            writer.WriteString("state", status.online ? "online" : "offline");
            writer.WriteString("version", status.version);
            writer.WriteString("configVersion", status.configVersion);
            writer.WriteTime("since", status.since);
            writer.WriteEndObject();
        });
}
