using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>Inspected values as lines of the ledger: one for the file, then one for each value.</summary>
public static class ResultJson
{
    private const int Digits = 6;

    /// <summary>The lines of a file.</summary>
    /// <param name="values">Its values.</param>
    /// <param name="sha256">Its hash, 64 hexadecimal digits; a file counts once.</param>
    /// <param name="now">When it came in.</param>
    public static IReadOnlyList<LedgerLine> Lines(IReadOnlyList<InspectionValue> values, string sha256, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentException.ThrowIfNullOrEmpty(sha256);
        return
        [
            new LedgerLine(now, LedgerKinds.ResultFile, null, Encoding.UTF8.GetString(JsonText.ToUtf8((sha256, values.Count), static (writer, file) =>
            {
                writer.WriteStartObject();
                writer.WriteString("file", file.sha256);
                writer.WriteNumber("values", file.Count);
                writer.WriteEndObject();
            }))),
            .. values.Select(value => new LedgerLine(now, LedgerKinds.Result, value.Machine, Encoding.UTF8.GetString(ToUtf8(value)))),
        ];
    }

    /// <summary>The hash of the file that such a line tells of.</summary>
    /// <param name="line">A line of kind <see cref="LedgerKinds.ResultFile"/>.</param>
    public static string? FileOf(LedgerLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        using var content = JsonDocument.Parse(line.Json);
        return content.RootElement.TryGetProperty("file", out var file) ? file.GetString() : null;
    }

    /// <summary>A value from its line; null when the plant file does not know its part or feature any more.</summary>
    internal static InspectionValue? Read(JsonElement root, Cell cell)
    {
        var part = root.Text("part");
        var feature = cell.FindPart(part)?.Features.FirstOrDefault(known => known.Id == root.Text("feature"));
        return feature is null || root.Number("deviationUm") is not { } deviation ? null
            : new InspectionValue(root.Text("serial"), root.Text("operation"), root.Text("machine"), feature, deviation)
            {
                Part = part, Hole = (int?)root.Number("hole"), DxMicrometres = root.Number("dxUm"), DyMicrometres = root.Number("dyUm"),
                MeasuredAt = Rfc3339.TryParse(Encoding.UTF8.GetBytes(root.Text("measuredAt")), out var at) ? at : null, UMicrometres = root.Number("uUm"),
                Device = root.Text("device"), Compensation = CompensationWords.Read(root.Text("compensation")) ?? DeviceCompensation.Unknown,
                PartCelsius = root.Number("partC"), DeviceCelsius = root.Number("deviceC"), Line = (int)(root.Number("line") ?? 0),
                DeviceAlphaMicrometresPerMetreKelvin = root.Number("deviceAlpha"),
            };
    }

    private static byte[] ToUtf8(InspectionValue value) => JsonText.ToUtf8(value, static (writer, one) =>
    {
        writer.WriteStartObject();
        writer.WriteString("machine", one.Machine);
        writer.WriteString("serial", one.Serial);
        writer.WriteString("part", one.Part);
        writer.WriteString("operation", one.Operation);
        writer.WriteString("feature", one.Feature.Id);
        writer.WriteRounded("hole", one.Hole, 0);
        writer.WriteRounded("deviationUm", one.DeviationMicrometres, Digits);
        writer.WriteRounded("dxUm", one.DxMicrometres, Digits);
        writer.WriteRounded("dyUm", one.DyMicrometres, Digits);
        writer.WriteTime("measuredAt", one.MeasuredAt);
        writer.WriteRounded("uUm", one.UMicrometres, Digits);
        writer.WriteString("device", one.Device);
        writer.WriteString("compensation", CompensationWords.Word(one.Compensation));
        writer.WriteRounded("partC", one.PartCelsius, Digits);
        writer.WriteRounded("deviceC", one.DeviceCelsius, Digits);
        writer.WriteRounded("deviceAlpha", one.DeviceAlphaMicrometresPerMetreKelvin, Digits);
        writer.WriteNumber("line", one.Line);
        writer.WriteBoolean("inTolerance", one.InTolerance);
        writer.WriteEndObject();
    });
}
