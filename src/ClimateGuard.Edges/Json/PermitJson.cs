using System.Text.Json;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>Answers, permits, overrides and scores as JSON: the one place that names their fields.</summary>
public static class PermitJson
{
    /// <summary>An answer as one UTF-8 JSON object.</summary>
    public static byte[] ToUtf8(PermitAnswer answer) => JsonText.ToUtf8(answer, static (writer, value) => Write(writer, value));

    /// <summary>An answer as the ledger keeps it: with every feature, so that each inspected one has its prediction as it stood before the cut.</summary>
    public static byte[] ToLedgerUtf8(PermitAnswer answer) => JsonText.ToUtf8(answer, static (writer, value) =>
    {
        writer.WriteStartObject();
        WriteFields(writer, value);
        OutlookJson.WriteFeatures(writer, value.Features);
        writer.WriteEndObject();
    });

    /// <summary>Writes an answer.</summary>
    public static void Write(Utf8JsonWriter writer, PermitAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(answer);
        writer.WriteStartObject();
        WriteFields(writer, answer);
        writer.WriteEndObject();
    }

    private static void WriteFields(Utf8JsonWriter writer, PermitAnswer answer)
    {
        writer.WriteString("requestId", answer.RequestId);
        writer.WriteString("answer", answer.Answer.Word());
        writer.WriteString("reasonCode", answer.ReasonCode);
        writer.WriteString("text", answer.Text);
        writer.WriteString("machine", answer.Machine);
        writer.WriteString("serial", answer.Serial);
        writer.WriteString("part", answer.Part);
        writer.WriteString("operation", answer.Operation);
        writer.WriteTime("time", answer.Time);
        writer.WriteString("permitId", answer.Permit?.Id);
        writer.WriteTime("validUntil", answer.Permit?.ValidUntil);
        OutlookJson.WriteWorst(writer, answer.Worst);
        WriteOffset(writer, answer.Permit?.Offset);
        WriteStart(writer, answer);
        writer.WriteString("action", answer.Actions.Count > 0 ? answer.Actions[0] : null);
        writer.WriteTexts("actions", answer.Actions);
        writer.WriteRounded("dataAgeSeconds", answer.DataAge?.TotalSeconds, 1);
    }

    /// <summary>A permit as it is now.</summary>
    public static byte[] ToUtf8(Permit permit, DateTimeOffset now) => JsonText.ToUtf8((permit, now), static (writer, value) =>
    {
        writer.WriteStartObject();
        writer.WriteString("permitId", value.permit.Id);
        writer.WriteString("machine", value.permit.Machine);
        writer.WriteString("serial", value.permit.Serial);
        writer.WriteString("operation", value.permit.Operation);
        writer.WriteString("feature", value.permit.Feature);
        writer.WriteTime("issuedAt", value.permit.IssuedAt);
        writer.WriteTime("validUntil", value.permit.ValidUntil);
        writer.WriteString("configVersion", value.permit.ConfigVersion);
        writer.WriteString("state", Fate(value.permit.FateAt(value.now)));
        writer.WriteString("revokedBecause", value.permit.RevokedBecause);
        writer.WriteEndObject();
    });

    /// <summary>What became of a permit, as a word.</summary>
    public static string Fate(PermitFate fate) => fate switch
    {
        PermitFate.Valid => "valid",
        PermitFate.Used => "used",
        PermitFate.Expired => "expired",
        PermitFate.Revoked => "revoked",
        _ => "superseded",
    };

    /// <summary>The score of a hold.</summary>
    public static byte[] ToUtf8(HoldScore score) => JsonText.ToUtf8(score, static (writer, value) =>
    {
        writer.WriteStartObject();
        writer.WriteString("machine", value.Machine);
        writer.WriteString("serial", value.Serial);
        writer.WriteString("operation", value.Operation);
        writer.WriteString("feature", value.Feature);
        writer.WriteRounded("predictedUm", value.PredictedMicrometres, 3);
        writer.WriteRounded("uUm", value.UMicrometres, 3);
        writer.WriteRounded("measuredUm", value.MeasuredMicrometres, 3);
        writer.WriteRounded("budgetUm", value.BudgetMicrometres, 3);
        writer.WriteString("measurement", value.Measurement);
        writer.WriteString("verdict", value.Verdict switch
        {
            HoldVerdict.Confirmed => "confirmed",
            HoldVerdict.Refuted => "refuted",
            _ => "undecided",
        });
        writer.WriteEndObject();
    });

    /// <summary>The score of an override.</summary>
    public static byte[] ToUtf8(OverrideScore score) => JsonText.ToUtf8(score, static (writer, value) =>
    {
        writer.WriteStartObject();
        writer.WriteString("override", value.Right ? "right" : "wrong");
        writer.WriteString("machine", value.Machine);
        writer.WriteString("serial", value.Serial);
        writer.WriteString("operation", value.Operation);
        writer.WriteString("by", value.By);
        writer.WriteString("reason", value.Reason);
        writer.WriteNumber("inspected", value.Inspected);
        writer.WriteStartArray("outOfTolerance");
        foreach (var feature in value.OutOfTolerance)
        {
            writer.WriteStringValue(feature);
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    });

    /// <summary>An override from its ledger line, with its machine; null for one that was refused or has ended.</summary>
    public static (string Machine, ActiveOverride Override)? ReadOverride(LedgerLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        using var content = JsonDocument.Parse(line.Json);
        var root = content.RootElement;
        if (line.Machine is null || root.GetProperty("serial").GetString() is not { } serial)
        {
            return null;
        }

        return (line.Machine, new ActiveOverride(
            serial, root.GetProperty("operation").GetString() ?? "", root.GetProperty("by").GetString() ?? "", root.GetProperty("secondBy").GetString(),
            root.GetProperty("reason").GetString() ?? "", line.Time, root.GetProperty("until").GetDateTimeOffset(), root.GetProperty("inForce").GetBoolean()));
    }

    /// <summary>What became of an override.</summary>
    public static byte[] ToUtf8(OverrideTaken taken) => JsonText.ToUtf8(taken, static (writer, value) =>
    {
        writer.WriteStartObject();
        writer.WriteString("machine", value.Machine);
        writer.WriteString("serial", value.Override?.Serial);
        writer.WriteString("operation", value.Override?.Operation);
        writer.WriteString("by", value.Override?.By);
        writer.WriteString("secondBy", value.Override?.SecondBy);
        writer.WriteString("reason", value.Override?.Reason);
        writer.WriteTime("until", value.Override?.Until);
        writer.WriteBoolean("inForce", value.Override?.InForce ?? false);
        writer.WriteString("refused", value.Refused);
        writer.WriteEndObject();
    });

    private static void WriteOffset(Utf8JsonWriter writer, StandingOffset? offset)
    {
        if (offset is null)
        {
            return;
        }

        writer.WriteStartObject("offset");
        writer.WriteNumber("scale", offset.ScaleFactor);
        writer.WriteNumber("shiftXUm", offset.ShiftXMicrometres);
        writer.WriteNumber("shiftYUm", offset.ShiftYMicrometres);
        writer.WriteNumber("shiftZUm", offset.ShiftZMicrometres);
        writer.WriteString("by", offset.By);
        writer.WriteEndObject();
    }

    private static void WriteStart(Utf8JsonWriter writer, PermitAnswer answer)
    {
        var from = answer.StartCountsFrom ?? answer.Time;
        var later = answer.Start as SafeAt;
        writer.WriteTime("earliestSafe", answer.Start is SafeNow ? answer.Time : later is null ? null : from + later.Release);
        writer.WriteTime("earliestSafeLow", later?.Low is { } low ? from + low : null);
        writer.WriteTime("earliestSafeHigh", later?.High is { } high ? from + high : null);
        writer.WriteBoolean("notWithinForecast", answer.Start is NotWithinForecast);
    }
}
