using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;
using ClimateGuard.Edges.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Replay;

/// <summary>Decisions as lines of a replay: <c>time</c>, <c>kind</c>, then the fields that the ledger keeps.</summary>
internal static class ReplayLines
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>A decision as a line with its end, or null when it only renews an outlook.</summary>
    public static byte[]? Of(Decision decision) =>
        LedgerLines.Of(decision) is { } line ? Line(line.Time, line.Kind, System.Text.Encoding.UTF8.GetBytes(line.Json)) : null;

    /// <summary>An outlook that stands at a moment.</summary>
    public static byte[] Of(DateTimeOffset moment, Outlook outlook) => Line(moment, LedgerLines.OutlookKind, OutlookJson.ToUtf8(outlook));

    private static byte[] Line(DateTimeOffset time, string kind, byte[] json)
    {
        var buffer = new ArrayBufferWriter<byte>(json.Length + 80);
        using (var writer = new Utf8JsonWriter(buffer, Options))
        {
            using var fields = JsonDocument.Parse(json);
            writer.WriteStartObject();
            writer.WriteTime("time", time);
            writer.WriteString("kind", kind);
            foreach (var field in fields.RootElement.EnumerateObject().Where(field => !field.NameEquals("time")))
            {
                field.WriteTo(writer);
            }

            writer.WriteEndObject();
        }

        buffer.Write("\n"u8);
        return buffer.WrittenSpan.ToArray();
    }
}
