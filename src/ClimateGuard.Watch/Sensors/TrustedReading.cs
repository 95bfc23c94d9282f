using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>A reading with the judgement on it.</summary>
/// <remarks>Equality by members; no order; the default is an accepted 0 of the first sensor. A value type, immutable.</remarks>
/// <param name="Raw">The reading as decoded, with the stamp as sent.</param>
/// <param name="Value">The value to use: raw, or corrected by calibration.</param>
/// <param name="Trust">What became of it.</param>
/// <param name="Reason">Why, when it was not simply accepted.</param>
public readonly record struct TrustedReading(Reading Raw, double Value, Trust Trust, TrustReason Reason)
{
    /// <summary>How far the sender's clock is ahead, in ms; taken off the stamp. 0 for a clock that is trusted.</summary>
    public long ClockAheadMilliseconds { get; init; }

    /// <summary>Event time to use, in milliseconds since 1970-01-01 UTC: the stamp, less what the sender's clock is ahead.</summary>
    public long EpochMilliseconds => Raw.EpochMilliseconds - ClockAheadMilliseconds;

    /// <summary>Event time to use.</summary>
    public DateTimeOffset Time => DateTimeOffset.FromUnixTimeMilliseconds(EpochMilliseconds);
}

/// <summary>What became of a reading.</summary>
public enum Trust
{
    /// <summary>Used as it is.</summary>
    Accepted,

    /// <summary>Used after a correction.</summary>
    Corrected,

    /// <summary>Kept, not used.</summary>
    Quarantined,
}
