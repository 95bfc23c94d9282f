namespace ClimateGuard.Thermal;

/// <summary>One thing that can be done before a finish cut, and what it would lead to. Data only; the words are written elsewhere.</summary>
/// <remarks>Nothing here acts: an offset, a warm-up or a rinse is always set by a person. Immutable.</remarks>
public sealed record RankedAction
{
    /// <summary>What is done.</summary>
    public required ActionKind Kind { get; init; }

    /// <summary>How long it takes until the cut can start.</summary>
    public required TimeSpan Takes { get; init; }

    /// <summary>How the cut would stand after it; null when a condition is not met or the time does not suffice.</summary>
    public ActionResult? Result { get; init; }

    /// <summary>What must be so for the action to make sense, each with whether it is.</summary>
    public IReadOnlyList<ActionCondition> Conditions { get; init; } = [];

    /// <summary>For a measurement: what it would decide.</summary>
    public MeasurementValue? Measurement { get; init; }

    /// <summary>For an offset: what a person would set.</summary>
    public OffsetProposal? Offset { get; init; }

    /// <summary>How long the part is rinsed, fanned, soaked or the spindle warmed, without what follows; null for other actions.</summary>
    public TimeSpan? Exposure { get; init; }

    /// <summary>The datum is probed again at the end; its time is in <see cref="Takes"/>.</summary>
    public bool EndsWithReprobe { get; init; }

    /// <summary>For waiting: when the held cut may start; with the spindle turning null when that is not within the forecast.</summary>
    public EarliestStart? Start { get; init; }

    /// <summary>For another machine: which.</summary>
    public string? Machine { get; init; }

    /// <summary>For another sequence: the features that may be cut now.</summary>
    public IReadOnlyList<string> Features { get; init; } = [];

    /// <summary>All conditions are met.</summary>
    public bool Possible => Conditions.All(condition => condition.Met);

    /// <summary>It is possible and makes the cut safe; for a measurement: it is more likely than not to.</summary>
    public bool ReachesSafety => Possible && (Measurement is null ? Result?.Safe ?? false : Measurement.StartsAtOnce >= 0.5);
}

/// <summary>How a cut would stand after an action.</summary>
/// <param name="Probability">Probability of an exceedance of the worst feature over the cut.</param>
/// <param name="Feature">That feature.</param>
/// <param name="Worst">Its largest effect over the cut, with its uncertainty.</param>
/// <param name="BudgetMicrometres">Its budget, in µm.</param>
/// <param name="Safe">The cut could be released: by probability and by guard band, the margin after the cut included.</param>
public sealed record ActionResult(double Probability, string Feature, FeatureEffect Worst, double BudgetMicrometres, bool Safe);

/// <summary>What a measurement would decide, before it is made: shares of what it may show.</summary>
/// <param name="StartsAtOnce">Probability that the cut may start right after it.</param>
/// <param name="Holds">Probability that it shows a certain exceedance, so that the hold stands on firm ground.</param>
/// <param name="UBeforeMicrometres">Uncertainty of the worst feature before, in µm.</param>
/// <param name="UAfterMicrometres">Uncertainty of it after, in µm.</param>
public sealed record MeasurementValue(double StartsAtOnce, double Holds, double UBeforeMicrometres, double UAfterMicrometres)
{
    /// <summary>Probability that the question stays open.</summary>
    public double Undecided => Math.Max(0, 1 - StartsAtOnce - Holds);
}

/// <summary>An offset that a person may set; the program never does.</summary>
/// <param name="ScaleFactor">Factor on the program about the datum, near 1.</param>
/// <param name="ShiftXMicrometres">Shift of the work offset in X, in µm.</param>
/// <param name="ShiftYMicrometres">Shift of the work offset in Y, in µm.</param>
/// <param name="ShiftZMicrometres">Shift of the work offset in Z, in µm.</param>
/// <param name="AsProposed">How the cut would stand with it.</param>
/// <param name="SignTurned">How it would stand with every sign the wrong way round: what a slip would cost.</param>
public sealed record OffsetProposal(
    double ScaleFactor,
    double ShiftXMicrometres,
    double ShiftYMicrometres,
    double ShiftZMicrometres,
    ActionResult AsProposed,
    ActionResult SignTurned);

/// <summary>One condition of an action.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Met">Whether it is so.</param>
/// <param name="Value">What was found, in the unit of the kind, or null when it is not known.</param>
/// <param name="Limit">What is allowed, in the same unit, or null when there is no number.</param>
public sealed record ActionCondition(ActionConditionKind Kind, bool Met, double? Value = null, double? Limit = null);

/// <summary>The conditions.</summary>
public enum ActionConditionKind
{
    /// <summary>Coolant near the scale's temperature, in K apart.</summary>
    CoolantNearScale,

    /// <summary>A fan is at hand.</summary>
    FanAtHand,

    /// <summary>The part is wet.</summary>
    PartIsWet,

    /// <summary>The machine has a known spindle mode.</summary>
    SpindleModeKnown,

    /// <summary>The spindle is turning.</summary>
    SpindleTurning,

    /// <summary>The uncertainty is at most a third of the budget, in µm.</summary>
    EffectWellKnown,

    /// <summary>The offset is at most twice the budget, in µm.</summary>
    OffsetSmall,

    /// <summary>The time until it is safe lies within the horizon, in minutes.</summary>
    WithinHorizon,

    /// <summary>Something else of this part may be cut now.</summary>
    OtherFeatureSafe,
}

/// <summary>The actions.</summary>
public enum ActionKind
{
    /// <summary>Start the cut now.</summary>
    StartNow,

    /// <summary>Probe the datum again.</summary>
    Reprobe,

    /// <summary>Probe a known length on the part.</summary>
    SpanProbe,

    /// <summary>Measure the part's temperature by contact.</summary>
    ContactTemperature,

    /// <summary>Rinse with coolant, blow dry, probe the datum again.</summary>
    Rinse,

    /// <summary>Blow room air over the part.</summary>
    Fan,

    /// <summary>Wait.</summary>
    Soak,

    /// <summary>Blow the part dry.</summary>
    DryOff,

    /// <summary>Warm the spindle up.</summary>
    WarmUp,

    /// <summary>Wait with the spindle turning.</summary>
    KeepSpindleTurning,

    /// <summary>Set an offset.</summary>
    Offset,

    /// <summary>Cut another feature first.</summary>
    Resequence,

    /// <summary>Use another machine.</summary>
    OtherMachine,
}
