using System.Text;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Json;

/// <summary>Writes events and decisions as lines of the ledger.</summary>
public static class LedgerLines
{
    /// <summary>Kind of a line that keeps an event.</summary>
    public const string EventKind = LedgerKinds.Event;

    /// <summary>Kind of a line that keeps a changed outlook.</summary>
    public const string OutlookKind = LedgerKinds.Outlook;

    /// <summary>Kind of a line that keeps an alert.</summary>
    public const string AlertKind = LedgerKinds.Alert;

    /// <summary>Kind of a line that keeps an answer to a request.</summary>
    public const string AnswerKind = LedgerKinds.Answer;

    /// <summary>Kind of a line that keeps what became of a permit.</summary>
    public const string PermitKind = LedgerKinds.Permit;

    /// <summary>Kind of a line that keeps an override.</summary>
    public const string OverrideKind = LedgerKinds.Override;

    /// <summary>Kind of a line that keeps the score of a hold.</summary>
    public const string ScoreKind = LedgerKinds.Score;

    /// <summary>Kind of a line that keeps a cut that started without a permit.</summary>
    public const string CutKind = LedgerKinds.CutWithoutPermit;

    /// <summary>An event as a line.</summary>
    public static LedgerLine Of(CellEvent happened)
    {
        ArgumentNullException.ThrowIfNull(happened);
        return new(happened.Time, EventKind, (happened as MachineEvent)?.Machine, Encoding.UTF8.GetString(EventJson.ToUtf8(happened)));
    }

    /// <summary>A decision as a line; null for an outlook that only renews the last.</summary>
    public static LedgerLine? Of(Decision decision) => decision switch
    {
        OutlookIssued { Changed: true } issued =>
            new(issued.Time, OutlookKind, issued.Outlook.Machine, Encoding.UTF8.GetString(OutlookJson.ToLedgerUtf8(issued.Outlook))),
        AlertRaised raised => new(raised.Time, AlertKind, raised.Alert.Machine, Encoding.UTF8.GetString(AlertJson.ToUtf8(raised))),
        RequestAnswered { Repeated: false } answered =>
            Line(answered.Time, AnswerKind, answered.Answer.Machine, PermitJson.ToLedgerUtf8(answered.Answer)),
        PermitChanged changed => Line(changed.Time, PermitKind, changed.Permit.Machine, PermitJson.ToUtf8(changed.Permit, changed.Time)),
        OverrideTaken taken => Line(taken.Time, OverrideKind, taken.Machine, PermitJson.ToUtf8(taken)),
        HoldScored scored => Line(scored.Time, ScoreKind, scored.Score.Machine, PermitJson.ToUtf8(scored.Score)),
        CutWithoutPermit cut => Line(cut.Time, CutKind, cut.Machine, JsonText.ToUtf8(cut, static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteString("machine", value.Machine);
            writer.WriteString("serial", value.Serial);
            writer.WriteString("operation", value.Operation);
            writer.WriteEndObject();
        })),
        HoldThresholdMoved moved => new(moved.Time, LedgerKinds.Policy, null, Encoding.UTF8.GetString(JsonText.ToUtf8(moved, static (writer, value) =>
        {
            writer.WriteStartObject();
            writer.WriteString("policy", "probability.hold");
            writer.WriteNumber("from", value.From);
            writer.WriteNumber("to", value.To);
            writer.WriteString("because", value.Because);
            writer.WriteEndObject();
        }))),
        FindingTold told => new(told.Time, LedgerKinds.Finding, told.Finding.Place.Machine, Encoding.UTF8.GetString(FindingJson.ToUtf8(told))),
        ExcursionTold told => new(told.Time, LedgerKinds.Excursion, null, Encoding.UTF8.GetString(ExcursionJson.ToUtf8(told))),
        PlantChanged changed => new(changed.Time, LedgerKinds.Config, null, Encoding.UTF8.GetString(PlantJson.ToUtf8(changed.Change))),
        _ => null,
    };

    private static LedgerLine Line(DateTimeOffset time, string kind, string machine, byte[] json) =>
        new(time, kind, machine, Encoding.UTF8.GetString(json));
}
