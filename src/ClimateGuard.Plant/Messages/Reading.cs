namespace ClimateGuard.Plant;

/// <summary>One value of one sensor at one moment, in the canonical unit of its quantity.</summary>
/// <remarks>
/// Equality is by all members. Order is not defined; event time rules. The default is the first sensor, 1970, 0.
/// A value type of 32 bytes so that a burst of readings costs no allocation. Immutable.
/// </remarks>
/// <param name="Sensor">Index of the sensor in <see cref="Cell.Sensors"/>.</param>
/// <param name="EpochMilliseconds">Event time, in milliseconds since 1970-01-01 UTC.</param>
/// <param name="Value">The value, finite, in the canonical unit (°C, %, Pa, m³/h, kW, 1/min, 0..1).</param>
/// <param name="Sequence">The sender's sequence number, or -1.</param>
public readonly record struct Reading(int Sensor, long EpochMilliseconds, double Value, long Sequence = -1)
{
    /// <summary>Event time.</summary>
    public DateTimeOffset Time => DateTimeOffset.FromUnixTimeMilliseconds(EpochMilliseconds);
}
