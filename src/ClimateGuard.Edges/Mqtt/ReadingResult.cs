using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Mqtt;

/// <summary>A reading, or the one sentence why there is none.</summary>
/// <param name="Reading">The reading, when <paramref name="Reason"/> is null; its value is finite and in the canonical unit.</param>
/// <param name="TimeIsArrival">The payload named no time, so the time of arrival stands in.</param>
/// <param name="Reason">What was found and what is allowed, or null.</param>
public readonly record struct ReadingResult(Reading Reading, bool TimeIsArrival, string? Reason);
