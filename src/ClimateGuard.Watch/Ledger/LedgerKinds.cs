namespace ClimateGuard.Watch;

/// <summary>What a line of the ledger can be. A closed set: a store refuses any other kind.</summary>
public static class LedgerKinds
{
    /// <summary>Something that happened in the cell, as it came in: a job, a cut, a measurement, a door.</summary>
    public const string Event = "event";

    /// <summary>An outlook that changed, frozen as it was shown; what is computed later never replaces it.</summary>
    public const string Outlook = "outlook";

    /// <summary>A person should act, or need not any more.</summary>
    public const string Alert = "alert";

    /// <summary>What a control was answered, frozen with the prediction behind it.</summary>
    public const string Answer = "answer";

    /// <summary>A permit was issued, used, revoked or ran out.</summary>
    public const string Permit = "permit";

    /// <summary>What followed from a measurement.</summary>
    public const string Measurement = "measurement";

    /// <summary>A person took the responsibility: who, why, until when.</summary>
    public const string Override = "override";

    /// <summary>A version of the plant file came into force.</summary>
    public const string Config = "config";

    /// <summary>A worker began to decide for this cell, with its token.</summary>
    public const string Lease = "lease";

    /// <summary>A message to people that asks for no action.</summary>
    public const string Notice = "notice";

    /// <summary>How a hold or an override turned out.</summary>
    public const string Score = "score";

    /// <summary>A finish cut began without a permit: a report, not an alarm.</summary>
    public const string CutWithoutPermit = "cutWithoutPermit";

    /// <summary>For want of space on the disk, readings are not kept any more, or are kept again, with what was not kept in between.</summary>
    public const string HistoryGap = "historyGap";

    /// <summary>A file of inspection results came in, by its hash.</summary>
    public const string ResultFile = "resultFile";

    /// <summary>One inspected value of such a file.</summary>
    public const string Result = "result";

    /// <summary>The probability from which the cell holds has moved.</summary>
    public const string Policy = "policy";

    /// <summary>A finding was opened, got an answer, or was closed.</summary>
    public const string Finding = "finding";

    /// <summary>The air of a zone left its band, or is back.</summary>
    public const string Excursion = "excursion";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } =
        [Event, Outlook, Alert, Answer, Permit, Measurement, Override, Config, Lease, Notice, Score, CutWithoutPermit, HistoryGap,
         ResultFile, Result, Policy, Finding, Excursion];
}
