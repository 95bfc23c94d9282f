using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Json;

/// <summary>An event, or the one sentence why it could not be read.</summary>
/// <param name="Event">The event, or null.</param>
/// <param name="TimeIsArrival">It named no time, so the time of arrival stands in.</param>
/// <param name="Reason">What was found and what is allowed, or null when there is an event.</param>
public readonly record struct EventResult(CellEvent? Event, bool TimeIsArrival, string? Reason);
