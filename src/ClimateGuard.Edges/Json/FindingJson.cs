using System.Text.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>A finding as JSON: in the ledger, over MQTT, by HTTP and in a replay.</summary>
public static class FindingJson
{
    private const int Digits = 4;

    /// <summary>The finding as one UTF-8 JSON object.</summary>
    public static byte[] ToUtf8(FindingTold told)
    {
        ArgumentNullException.ThrowIfNull(told);
        return JsonText.ToUtf8(told, static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteTime("time", value.Time);
            WriteFields(writer, value.Finding);
            writer.WriteEndObject();
        });
    }

    /// <summary>Writes the fields of a finding into an object that is open.</summary>
    public static void WriteFields(Utf8JsonWriter writer, FindingCase finding)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(finding);
        writer.WriteString("id", finding.Id);
        writer.WriteString("state", WordOf(finding.State));
        writer.WriteString("finding", finding.Place.Cause);
        writer.WriteString("cause", finding.Words);
        writer.WriteString("component", finding.Place.Component);
        writer.WriteString("airHandler", finding.Place.AirHandler);
        writer.WriteString("zone", finding.Place.Zone);
        writer.WriteString("machine", finding.Place.Machine);
        writer.WriteString("sensor", finding.Place.Sensor);
        writer.WriteRounded("probability", finding.Probability, Digits);
        writer.WriteTime("openedAt", finding.OpenedAt);
        writer.WriteTime("onset", finding.Onset);
        Write(writer, finding.Evidence);
        writer.WriteTexts("missing", finding.Missing);
        Write(writer, finding.MovedFirst);
        WriteCheck(writer, Catalogue.Find(finding.Place.Cause)?.FirstCheck);
        Write(writer, finding.Answers);
        WriteImpact(writer, finding.Impact);
        WriteClosing(writer, finding);
    }

    /// <summary>Writes evidence, each with its log-likelihood ratio: above 0 speaks for the cause, below 0 against it.</summary>
    public static void Write(Utf8JsonWriter writer, IReadOnlyList<Enclosure.Evidence> evidence)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(evidence);
        writer.WriteStartArray("evidence");
        foreach (var one in evidence.Where(one => one.LogLikelihoodRatio != 0))
        {
            writer.WriteStartObject();
            writer.WriteString("text", one.Text);
            writer.WriteRounded("logLikelihoodRatio", one.LogLikelihoodRatio, Digits);
            writer.WriteString("symptom", one.Symptom);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    /// <summary>Writes the first check of a cause: <c>firstCheck</c> in words, <c>check</c> with tool, place, minutes and what to expect.</summary>
    public static void WriteCheck(Utf8JsonWriter writer, FirstCheck? check)
    {
        ArgumentNullException.ThrowIfNull(writer);
        writer.WriteString("firstCheck", check?.Text);
        if (check is null) return;
        writer.WriteStartObject("check");
        writer.WriteString("tool", check.Tool);
        writer.WriteString("place", check.Place);
        writer.WriteRounded("minutes", check.Minutes, 1);
        writer.WriteString("expected", check.Expected);
        writer.WriteEndObject();
    }

    /// <summary>The word of a state.</summary>
    internal static string WordOf(FindingState state) => state switch
    {
        FindingState.Hint => "hint",
        FindingState.Open => "open",
        _ => "closed",
    };

    private static void Write(Utf8JsonWriter writer, IReadOnlyList<SignalOnset> moved) => writer.WriteArray("movedFirst", moved, static (w, one) =>
    {
        w.WriteStartObject();
        w.WriteString("signal", one.Signal);
        w.WriteTime("at", one.At);
        w.WriteEndObject();
    });

    private static void Write(Utf8JsonWriter writer, IReadOnlyList<GivenAnswer> answers) => writer.WriteArray("answers", answers, static (w, answer) =>
    {
        w.WriteStartObject();
        w.WriteTime("time", answer.Time);
        w.WriteString("finding", answer.Cause);
        w.WriteBoolean("seen", answer.Seen);
        w.WriteString("by", answer.By);
        w.WriteEndObject();
    });

    private static void WriteImpact(Utf8JsonWriter writer, FindingImpact? impact)
    {
        if (impact is null) return;
        writer.WriteStartObject("impact");
        writer.WriteString("text", impact.Text);
        writer.WriteNumber("jobsLoaded", impact.Watched);
        writer.WriteRounded("finishHours", impact.FinishHours, 2);
        writer.WriteStartArray("jobs");
        foreach (var job in impact.Jobs)
        {
            writer.WriteStartObject();
            writer.WriteString("machine", job.Machine);
            writer.WriteString("serial", job.Serial);
            writer.WriteString("part", job.Part);
            writer.WriteString("operation", job.Operation);
            writer.WriteString("feature", job.Feature);
            writer.WriteString("level", job.Level.Word());
            writer.WriteRounded("probability", job.Probability, Digits);
            writer.WriteRounded("finishHours", job.FinishHours, 2);
            writer.WriteRounded("waitHours", job.WaitHours, 2);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteTexts("notKnown", impact.NotKnown);
        writer.WriteEndObject();
    }

    private static void WriteClosing(Utf8JsonWriter writer, FindingCase finding)
    {
        if (finding.State != FindingState.Closed) return;
        writer.WriteTime("closedAt", finding.ClosedAt);
        writer.WriteString("closedBecause", finding.ClosedBecause);
        writer.WriteString("verified", finding.Verified);
        writer.WriteString("fixedBy", finding.FixedBy);
        writer.WriteString("by", finding.By);
    }
}
