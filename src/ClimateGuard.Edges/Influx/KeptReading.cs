using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Influx;

/// <summary>A judged reading on its way to the store, with the name of its sensor: the number may change with the plant file.</summary>
/// <param name="Sensor">Id of the sensor.</param>
/// <param name="Time">Event time, in ms since 1970.</param>
/// <param name="Raw">The value as decoded.</param>
/// <param name="Value">The value in use.</param>
/// <param name="Trust">What became of it.</param>
/// <param name="Reason">Why, when it was not simply accepted.</param>
internal readonly record struct KeptReading(string Sensor, long Time, double Raw, double Value, Trust Trust, TrustReason Reason);

/// <summary>A message that could not be read, on its way to the store.</summary>
/// <param name="Nanoseconds">Time of arrival, in ns since 1970; below the millisecond stands a count, so that two of one moment are two points.</param>
/// <param name="Message">The message.</param>
internal readonly record struct KeptMessage(long Nanoseconds, UnreadableMessage Message);
