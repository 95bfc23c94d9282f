namespace ClimateGuard.Simulator;

/// <summary>A request for a permit as it was made, with what is needed to say later what the cut would truly have become.</summary>
/// <param name="Time">When it was asked.</param>
/// <param name="RequestId">Id of the request.</param>
/// <param name="Machine">The machine.</param>
/// <param name="Serial">The serial.</param>
/// <param name="Part">The part number.</param>
/// <param name="Feature">The feature, or null for all of the part.</param>
/// <param name="Duration">How long the cut takes.</param>
/// <param name="ProbedAt">Tool against work when each axis was last probed, in µm.</param>
public sealed record AskRecord(
    DateTimeOffset Time, string RequestId, string Machine, string Serial, string Part, string? Feature, TimeSpan Duration, Displacement ProbedAt);
