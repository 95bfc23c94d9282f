using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>The answer to one request of a control.</summary>
/// <remarks>Immutable; equality by members. Texts for a control's screen have at most 60 characters.</remarks>
public sealed record PermitAnswer
{
    /// <summary>The longest text a control's screen shows.</summary>
    public const int MostCharacters = 60;

    /// <summary>The sender's id of the request.</summary>
    public required string RequestId { get; init; }

    /// <summary>Id of the machine.</summary>
    public required string Machine { get; init; }

    /// <summary>Serial number.</summary>
    public required string Serial { get; init; }

    /// <summary>Part number.</summary>
    public required string Part { get; init; }

    /// <summary>Operation.</summary>
    public required string Operation { get; init; }

    /// <summary>When it was given.</summary>
    public required DateTimeOffset Time { get; init; }

    /// <summary>The answer.</summary>
    public required Answer Answer { get; init; }

    /// <summary>Why, as a fixed word for programmes.</summary>
    public required string ReasonCode { get; init; }

    /// <summary>Why, for a control's screen, at most 60 characters.</summary>
    public required string Text { get; init; }

    /// <summary>The permit that goes with a go, or null.</summary>
    public Permit? Permit { get; init; }

    /// <summary>The feature that decided, or null when nothing could be computed.</summary>
    public FeatureOutlook? Worst { get; init; }

    /// <summary>All features of the operation as they stood then; empty when nothing could be computed.</summary>
    public IReadOnlyList<FeatureOutlook> Features { get; init; } = [];

    /// <summary>When the cut could start with the machine held, counted from <see cref="StartCountsFrom"/>; null when not worked out.</summary>
    public EarliestStart? Start { get; init; }

    /// <summary>From when <see cref="Start"/> counts, or null.</summary>
    public DateTimeOffset? StartCountsFrom { get; init; }

    /// <summary>What can be done, the best first.</summary>
    public IReadOnlyList<string> Actions { get; init; } = [];

    /// <summary>How old the oldest input in use was, or null.</summary>
    public TimeSpan? DataAge { get; init; }

    /// <summary>A text cut to what a control's screen shows.</summary>
    /// <param name="text">Any text.</param>
    public static string Shortened(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length <= MostCharacters ? text : string.Concat(text.AsSpan(0, MostCharacters - 1), "…");
    }
}

/// <summary>The fixed words for why an answer was given.</summary>
public static class ReasonCodes
{
    /// <summary>The effect stays in the budget.</summary>
    public const string WithinBudget = "WITHIN_BUDGET";

    /// <summary>The effect stays in the budget with a small margin.</summary>
    public const string SmallMargin = "SMALL_MARGIN";

    /// <summary>Part and scale differ too much.</summary>
    public const string Mismatch = "MISMATCH";

    /// <summary>The machine has drifted since the datum was probed.</summary>
    public const string Drift = "DRIFT";

    /// <summary>What is known does not suffice to say.</summary>
    public const string Uncertain = "UNCERTAIN";

    /// <summary>An input is missing or too old.</summary>
    public const string InputMissing = "INPUT_MISSING";

    /// <summary>The part is not in the plant file.</summary>
    public const string PartUnknown = "PART_UNKNOWN";

    /// <summary>Another serial or part is on the machine.</summary>
    public const string NotLoaded = "NOT_LOADED";

    /// <summary>The part is not one this machine may make.</summary>
    public const string WrongMachine = "WRONG_MACHINE";

    /// <summary>The request is older than it may be.</summary>
    public const string TooOld = "REQUEST_TOO_OLD";

    /// <summary>The request id came before with another content.</summary>
    public const string IdReused = "REQUEST_ID_REUSED";

    /// <summary>A person has taken the responsibility.</summary>
    public const string Overridden = "OVERRIDDEN";

    /// <summary>With the offset that a setter has set the effect stays in the budget.</summary>
    public const string WithOffset = "WITH_OFFSET";

    /// <summary>The offset that a setter has set no longer fits.</summary>
    public const string OffsetChanged = "OFFSET_CHANGED";

    /// <summary>The cut runs already.</summary>
    public const string CutRuns = "CUT_RUNS";
}
