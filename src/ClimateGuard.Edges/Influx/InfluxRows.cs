using System.Text.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Influx;

/// <summary>Reads the rows of answers.</summary>
internal static class InfluxRows
{
    /// <summary>The columns of readings.</summary>
    public static readonly string[] ReadingColumns = ["time", "value", "raw", "reason"];

    /// <summary>The columns of what was set aside.</summary>
    public static readonly string[] SetAsideColumns = ["time", "raw", "reason"];

    /// <summary>A row of <see cref="ReadingColumns"/>.</summary>
    public static StoredReading Reading(JsonElement row)
    {
        var value = row[1].GetDouble();
        var reason = row[3].GetString() is { } name ? Enum.Parse<TrustReason>(name) : TrustReason.None;
        return new StoredReading(
            row[0].GetInt64(), row[2].ValueKind == JsonValueKind.Number ? row[2].GetDouble() : value, value,
            reason == TrustReason.None ? Trust.Accepted : Trust.Corrected, reason);
    }

    /// <summary>A row of <see cref="SetAsideColumns"/>.</summary>
    public static StoredReading SetAside(JsonElement row)
    {
        var raw = row[1].GetDouble();
        return new StoredReading(row[0].GetInt64(), raw, raw, Trust.Quarantined, Enum.Parse<TrustReason>(row[2].GetString()!));
    }
}
