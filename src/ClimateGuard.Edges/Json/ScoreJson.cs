using System.Text.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>The scoreboard as JSON, for HTTP and the command line: the one place that names its fields.</summary>
public static class ScoreJson
{
    /// <summary>The scoreboard as one UTF-8 JSON object.</summary>
    /// <param name="report">How right the holds were.</param>
    /// <param name="air">The plain air limits on the same history, or null when the history could not be read.</param>
    public static byte[] ToUtf8(ScoreReport report, IReadOnlyList<AirLimitScore>? air) => JsonText.ToUtf8((report, air), static (writer, value) =>
    {
        writer.WriteStartObject();
        writer.WriteTime("from", value.report.From);
        writer.WriteTime("to", value.report.To);
        Write(writer, "held", value.report.Held);
        Write(writer, "wouldHaveHeld", value.report.WouldHaveHeld);
        WriteInspection(writer, value.report.Inspection);
        WriteComparators(writer, value.report, value.air);
        WriteThresholds(writer, value.report);
        writer.WriteStartArray("holds");
        foreach (var hold in value.report.Holds)
        {
            Write(writer, hold, value.report.To);
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    });

    /// <summary>How a hold turned out, as a word.</summary>
    public static string Outcome(HeldWork hold) => hold.Score?.Verdict switch
    {
        HoldVerdict.Confirmed => "confirmed",
        HoldVerdict.Refuted => "refuted",
        HoldVerdict.Undecided => "undecided",
        _ => "not measured",
    };

    /// <summary>Writes a tally as a property.</summary>
    internal static void Write(Utf8JsonWriter writer, string name, HoldTally tally)
    {
        writer.WriteStartObject(name);
        writer.WriteNumber("holds", tally.Holds);
        writer.WriteNumber("standing", tally.Standing);
        writer.WriteNumber("confirmed", tally.Confirmed);
        writer.WriteNumber("refuted", tally.Refuted);
        writer.WriteNumber("undecided", tally.Undecided);
        writer.WriteNumber("notMeasured", tally.NotMeasured);
        writer.WriteNumber("overridden", tally.Overridden);
        writer.WriteRounded("confirmedShare", tally.ConfirmedShare, 4);
        WriteRange(writer, "confirmedShareBetween", tally.ConfirmedBetween, 4);
        writer.WriteBoolean("tooFewToSay", tally.ConfirmedShare is null);
        WriteRange(writer, "minutesLost", tally.MinutesLost, 1);
        WriteRange(writer, "minutesOfRefuted", tally.MinutesOfRefuted, 1);
        WriteMoney(writer, "cost", tally.Cost);
        WriteMoney(writer, "spared", tally.Spared);
        writer.WriteEndObject();
    }

    private static void WriteInspection(Utf8JsonWriter writer, InspectionTally inspection)
    {
        writer.WriteStartObject("inspection");
        writer.WriteNumber("features", inspection.Features);
        writer.WriteNumber("notKnown", inspection.NotKnown);
        WriteMoney(writer, "cost", inspection.Cost);
        writer.WriteStartArray("misses");
        foreach (var miss in inspection.Misses)
        {
            writer.WriteStartObject();
            writer.WriteString("machine", miss.Work.Machine);
            writer.WriteString("serial", miss.Work.Serial);
            writer.WriteString("operation", miss.Work.Operation);
            writer.WriteString("feature", miss.Feature);
            writer.WriteRounded("thermalUm", miss.Thermal.Micrometres, 3);
            writer.WriteString("thermalFrom", miss.Thermal.From == ThermalSource.Pattern ? "pattern" : "prediction");
            writer.WriteRounded("budgetUm", miss.BudgetMicrometres, 3);
            writer.WriteBoolean("inTolerance", miss.InTolerance);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }

    private static void WriteComparators(Utf8JsonWriter writer, ScoreReport report, IReadOnlyList<AirLimitScore>? air)
    {
        writer.WriteStartArray("airLimits");
        foreach (var limit in air ?? [])
        {
            writer.WriteStartObject();
            writer.WriteNumber("limitK", limit.LimitKelvins);
            writer.WriteNumber("activations", limit.Activations);
            writer.WriteNumber("minutesInAlarm", limit.MinutesInAlarm);
            writer.WriteNumber("minutesKnown", limit.MinutesKnown);
            writer.WriteNumber("confirmedInAlarm", limit.ConfirmedInAlarm);
            writer.WriteNumber("refutedInAlarm", limit.RefutedInAlarm);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteBoolean("airKnown", air is not null);
        writer.WriteStartObject("noTool");
        writer.WriteNumber("confirmedCut", report.Held.Confirmed + report.WouldHaveHeld.Confirmed);
        writer.WriteNumber("minutesLost", 0);
        writer.WriteEndObject();
    }

    private static void WriteThresholds(Utf8JsonWriter writer, ScoreReport report)
    {
        writer.WriteNumber("cases", report.Cases);
        writer.WriteStartArray("thresholds");
        foreach (var row in report.Thresholds)
        {
            writer.WriteStartObject();
            writer.WriteNumber("hold", row.Threshold);
            writer.WriteNumber("held", row.Held);
            writer.WriteNumber("right", row.Right);
            writer.WriteNumber("exceeded", row.Exceeded);
            writer.WriteRounded("precision", row.Precision, 4);
            writer.WriteRounded("recall", row.Recall, 4);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter writer, HeldWork hold, DateTimeOffset now)
    {
        writer.WriteStartObject();
        writer.WriteString("machine", hold.Work.Machine);
        writer.WriteString("serial", hold.Work.Serial);
        writer.WriteString("operation", hold.Work.Operation);
        writer.WriteString("feature", hold.Score?.Feature ?? hold.Prediction?.Feature);
        writer.WriteTime("begin", hold.Begin);
        writer.WriteTime("end", hold.End);
        WriteRange(writer, "minutesLost", new Interval(hold.KeptWaiting(now).TotalMinutes, hold.Stood(now).TotalMinutes), 1);
        writer.WriteRounded("probability", hold.Prediction?.Probability, 4);
        writer.WriteString("outcome", Outcome(hold));
        writer.WriteRounded("predictedUm", hold.Score?.PredictedMicrometres, 3);
        writer.WriteRounded("uUm", hold.Score?.UMicrometres, 3);
        writer.WriteRounded("measuredUm", hold.Score?.MeasuredMicrometres, 3);
        writer.WriteRounded("budgetUm", hold.Score?.BudgetMicrometres ?? hold.Prediction?.BudgetMicrometres, 3);
        writer.WriteString("measurement", hold.Score?.Measurement);
        writer.WriteBoolean("overridden", hold.Overridden);
        writer.WriteBoolean("shadow", hold.Shadow);
        writer.WriteEndObject();
    }

    private static void WriteRange(Utf8JsonWriter writer, string name, Interval? range, int digits)
    {
        if (range is not { } known)
        {
            writer.WriteNull(name);
            return;
        }

        writer.WriteStartArray(name);
        writer.WriteNumberValue(Math.Round(known.Low, digits));
        writer.WriteNumberValue(Math.Round(known.High, digits));
        writer.WriteEndArray();
    }

    private static void WriteMoney(Utf8JsonWriter writer, string name, MoneyRange? money)
    {
        if (money is null)
        {
            writer.WriteNull(name);
            return;
        }

        writer.WriteStartObject(name);
        writer.WriteRounded("low", money.Low, 2);
        writer.WriteRounded("high", money.High, 2);
        writer.WriteString("currency", money.Currency);
        writer.WriteEndObject();
    }
}
