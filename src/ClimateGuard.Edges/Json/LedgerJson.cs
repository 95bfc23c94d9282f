using System.Text;
using System.Text.Json;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>The ledger as JSON lines: a first line that names the cell, then a line for each entry with its number and hash.</summary>
/// <remarks>
/// <c>{"ledger":1,"cell":"cell4"}</c>, then <c>{"seq":1,"time":"2026-03-02T06:00:00.0000000Z","kind":"alert","machine":"M1","content":{…},"hash":"…"}</c>.
/// The content is the stored text, byte for byte, since the hash is over it. A text that is not one object on one line, which only a change
/// from outside leaves behind, stands there as a string.
/// </remarks>
public static class LedgerJson
{
    private const string Form = "1";

    /// <summary>The first line.</summary>
    /// <param name="cellId">Id of the cell.</param>
    public static byte[] Header(string cellId) => JsonText.ToUtf8(cellId, static (writer, cell) =>
    {
        writer.WriteStartObject();
        writer.WritePropertyName("ledger");
        writer.WriteRawValue(Form);
        writer.WriteString("cell", cell);
        writer.WriteEndObject();
    });

    /// <summary>Reads the first line.</summary>
    /// <param name="line">The line, without its end.</param>
    /// <returns>Id of the cell, or null when it is not the first line of a ledger of this form.</returns>
    public static string? ReadHeader(ReadOnlyMemory<byte> line)
    {
        try
        {
            using var document = JsonDocument.Parse(line);
            return document.RootElement is { ValueKind: JsonValueKind.Object } root
                && root.TryGetProperty("ledger", out var form) && form.GetRawText() == Form
                && root.TryGetProperty("cell", out var cell) && cell.ValueKind == JsonValueKind.String
                    ? cell.GetString()
                    : null;
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>One entry as a line, without its end.</summary>
    /// <param name="entry">The entry.</param>
    public static byte[] ToUtf8(LedgerEntry entry) => JsonText.ToUtf8(entry, static (writer, value) =>
    {
        writer.WriteStartObject();
        writer.WriteNumber("seq", value.Seq);
        writer.WriteString("time", LedgerChain.TimeText(value.Line.Time));
        writer.WriteString("kind", value.Line.Kind);
        writer.WriteString("machine", value.Line.Machine);
        writer.WritePropertyName("content");
        if (LedgerLine.IsOneObjectOnOneLine(value.Line.Json))
        {
            writer.WriteRawValue(value.Line.Json, skipInputValidation: true);
        }
        else
        {
            writer.WriteStringValue(value.Line.Json);
        }

        writer.WriteString("hash", value.Hash);
        writer.WriteEndObject();
    });

    /// <summary>Reads one entry.</summary>
    /// <param name="line">The line, without its end.</param>
    /// <param name="place">Which line of the entries it is, from 1; stands in for a number that cannot be read.</param>
    /// <returns>The entry; with a <see cref="LedgerEntry.Fault"/> when the line is not, byte for byte, as <see cref="ToUtf8"/> writes it.</returns>
    public static LedgerEntry Read(ReadOnlyMemory<byte> line, long place)
    {
        try
        {
            using var document = JsonDocument.Parse(line);
            var entry = Read(document.RootElement);
            return ToUtf8(entry).AsSpan().SequenceEqual(line.Span)
                ? entry
                : entry with { Fault = "the line is not written as a worker writes it" };
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException or KeyNotFoundException or FormatException)
        {
            return new LedgerEntry(place, new LedgerLine(default, "", null, Encoding.UTF8.GetString(line.Span)), "")
            {
                Fault = "the line is not a line of a ledger",
            };
        }
    }

    private static LedgerEntry Read(JsonElement root)
    {
        var content = root.GetProperty("content");
        _ = LedgerChain.TryReadTime(root.GetProperty("time").GetString(), out var time);
        return new LedgerEntry(
            root.GetProperty("seq").GetInt64(),
            new LedgerLine(
                time,
                root.GetProperty("kind").GetString() ?? "",
                root.GetProperty("machine").GetString(),
                content.ValueKind == JsonValueKind.String ? content.GetString()! : content.GetRawText()),
            root.GetProperty("hash").GetString() ?? "");
    }
}
