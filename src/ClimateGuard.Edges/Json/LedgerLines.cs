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
            new(issued.Time, OutlookKind, issued.Outlook.Machine, Encoding.UTF8.GetString(OutlookJson.ToUtf8(issued.Outlook))),
        AlertRaised raised => new(raised.Time, AlertKind, raised.Alert.Machine, Encoding.UTF8.GetString(AlertJson.ToUtf8(raised))),
        _ => null,
    };
}
