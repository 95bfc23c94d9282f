using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>A reading with the judgement on it.</summary>
/// <remarks>Equality by members; no order; the default is an accepted 0 of the first sensor. A value type, immutable.</remarks>
/// <param name="Raw">The reading as decoded.</param>
/// <param name="Value">The value to use: raw, or corrected by calibration or otherwise.</param>
/// <param name="Trust">What became of it.</param>
/// <param name="Reason">Why, when it was not simply accepted.</param>
public readonly record struct TrustedReading(Reading Raw, double Value, Trust Trust, TrustReason Reason);

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

/// <summary>Why a reading was corrected or set aside.</summary>
public enum TrustReason
{
    /// <summary>Nothing to say.</summary>
    None,

    /// <summary>A calibration offset was taken off.</summary>
    Calibrated,

    /// <summary>Outside the plausible range of the sensor.</summary>
    OutOfRange,

    /// <summary>A value that devices send for an open or shorted sensor.</summary>
    Sentinel,

    /// <summary>Stamped later than now.</summary>
    FromTheFuture,

    /// <summary>Kept by the broker from before, so not live.</summary>
    Retained,

    /// <summary>Already there.</summary>
    Duplicate,

    /// <summary>Older than raw readings are kept, so that nobody can tell any more whether it was there.</summary>
    TooOld,
}
