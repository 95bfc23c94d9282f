namespace ClimateGuard.Evidence;

/// <summary>What the evidence allows of a feature that is inspected at 100 %.</summary>
public enum SamplingAnswer
{
    /// <summary>The part is critical: each one stays inspected, whatever the numbers say.</summary>
    StaysInspected,

    /// <summary>Something speaks against sampling.</summary>
    No,

    /// <summary>Nothing speaks against it, and something is not shown yet.</summary>
    NotYet,

    /// <summary>A sampling plan may be proposed to those who own the control plan; nothing more.</summary>
    MayBeProposed,
}

/// <summary>How one requirement stands.</summary>
public enum RequirementState
{
    /// <summary>Shown by the data.</summary>
    Met,

    /// <summary>The data do not reach far enough to say.</summary>
    NotYet,

    /// <summary>The data speak against it.</summary>
    Against,
}

/// <summary>One thing that must be shown before sampling may be proposed; equality is by value.</summary>
/// <param name="Name">What must be shown.</param>
/// <param name="State">How it stands.</param>
/// <param name="Finding">What the data say, with numbers.</param>
/// <param name="StillNeeded">What is missing, or empty.</param>
public sealed record SamplingRequirement(string Name, RequirementState State, string Finding, string StillNeeded = "");

/// <summary>One inspected part of a feature, as far as the question of sampling needs it.</summary>
/// <param name="At">When it was cut.</param>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Episode">The shift on its machine: parts of one are not independent.</param>
/// <param name="DeviationMicrometres">The deviation that inspection judges, at 20 °C, in µm; of a position diametral and without sign.</param>
/// <param name="ThermalMicrometres">What temperature acts on, in µm: the deviation, or of a pattern with vectors 2·scale·radius.</param>
/// <param name="PredictedMicrometres">Predicted thermal effect on that, in µm.</param>
/// <param name="AirKelvins">Mean air − 20 during the cut, in K; NaN when not known.</param>
/// <param name="OutOfTolerance">Inspection found it out of tolerance.</param>
public sealed record SamplingPart(
    DateTimeOffset At, string Machine, string Episode, double DeviationMicrometres, double ThermalMicrometres, double PredictedMicrometres, double AirKelvins, bool OutOfTolerance);
