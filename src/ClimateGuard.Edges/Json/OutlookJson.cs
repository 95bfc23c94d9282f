using System.Text.Json;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>An outlook as JSON: the one place that names and rounds its fields, for MQTT, HTTP and the ledger.</summary>
/// <remarks>
/// Numbers are rounded to 0.001 µm, 0.001 K and 0.0001 of probability; null is "not known". Times are RFC 3339 in UTC.
/// Whoever reads it must take it as not known after <c>validUntil</c>, retained or not.
/// </remarks>
public static class OutlookJson
{
    private const int MicrometreDigits = 3;
    private const int KelvinDigits = 3;
    private const int ProbabilityDigits = 4;

    /// <summary>The outlook as one UTF-8 JSON object.</summary>
    public static byte[] ToUtf8(Outlook outlook)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        return JsonText.ToUtf8(outlook, static (writer, value) => Write(writer, value));
    }

    /// <summary>The outlook as the ledger keeps it: with every feature, so that each inspected one has its prediction as it stood before the cut.</summary>
    public static byte[] ToLedgerUtf8(Outlook outlook)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        return JsonText.ToUtf8(outlook, static (writer, value) =>
        {
            writer.WriteStartObject();
            WriteFields(writer, value);
            WriteFeatures(writer, value.Features);
            writer.WriteEndObject();
        });
    }

    /// <summary>Writes the outlook as one JSON object.</summary>
    public static void Write(Utf8JsonWriter writer, Outlook outlook)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(outlook);
        writer.WriteStartObject();
        WriteFields(writer, outlook);
        writer.WriteEndObject();
    }

    /// <summary>Writes the fields only, into an object that the caller has begun.</summary>
    public static void WriteFields(Utf8JsonWriter writer, Outlook outlook)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(outlook);
        writer.WriteString("machine", outlook.Machine);
        writer.WriteString("serial", outlook.Serial);
        writer.WriteString("part", outlook.Part);
        writer.WriteString("operation", outlook.Operation);
        writer.WriteString("level", outlook.Level.Word());
        WriteWorst(writer, outlook.Worst);
        writer.WriteRounded("partC", outlook.PartCelsius, KelvinDigits);
        writer.WriteRounded("scaleC", outlook.ScaleCelsius, KelvinDigits);
        writer.WriteTime("earliestSafe", outlook.EarliestSafe);
        WriteRange(writer, outlook);
        writer.WriteString("reason", outlook.Reason);
        writer.WriteString("action", outlook.Action);
        writer.WriteTexts("actions", outlook.Actions);
        writer.WriteNumber("seq", outlook.Seq);
        writer.WriteTime("issuedAt", outlook.IssuedAt);
        writer.WriteTime("validUntil", outlook.ValidUntil);
    }

    private static void WriteRange(Utf8JsonWriter writer, Outlook outlook)
    {
        var later = outlook.Start as SafeAt;
        writer.WriteTime("earliestSafeLow", later?.Low is { } low ? outlook.IssuedAt + low : null);
        writer.WriteTime("earliestSafeHigh", later?.High is { } high ? outlook.IssuedAt + high : null);
        writer.WriteBoolean("notWithinForecast", outlook.Start is NotWithinForecast);
    }

    internal static void WriteFeatures(Utf8JsonWriter writer, IReadOnlyList<FeatureOutlook> features) => writer.WriteArray("features", features, static (w, feature) =>
    {
        w.WriteStartObject();
        w.WriteString("feature", feature.Feature);
        w.WriteRounded("worstUm", feature.WorstMicrometres, MicrometreDigits);
        w.WriteRounded("uUm", feature.UMicrometres, MicrometreDigits);
        w.WriteRounded("budgetUm", feature.BudgetMicrometres, MicrometreDigits);
        w.WriteRounded("probability", feature.Probability, ProbabilityDigits);
        w.WriteEndObject();
    });

    internal static void WriteWorst(Utf8JsonWriter writer, FeatureOutlook? worst)
    {
        writer.WriteString("feature", worst?.Feature);
        writer.WriteRounded("effectUm", worst?.EffectMicrometres, MicrometreDigits);
        writer.WriteRounded("driftUm", worst?.DriftMicrometres, MicrometreDigits);
        writer.WriteRounded("mismatchUm", worst?.MismatchMicrometres, MicrometreDigits);
        writer.WriteRounded("uUm", worst?.UMicrometres, MicrometreDigits);
        writer.WriteRounded("budgetUm", worst?.BudgetMicrometres, MicrometreDigits);
        writer.WriteRounded("worstUm", worst?.WorstMicrometres, MicrometreDigits);
        writer.WriteRounded("probability", worst?.Probability, ProbabilityDigits);
    }
}
