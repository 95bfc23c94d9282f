namespace ClimateGuard.Watch;

/// <summary>Why a reading was corrected or set aside, or what is wrong with a sensor.</summary>
/// <remarks>Stored by name: a name is never changed; new ones are added at the end.</remarks>
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

    /// <summary>Looks like a value in another unit.</summary>
    UnitMixUp,

    /// <summary>One value far from those around it.</summary>
    Spike,

    /// <summary>The same digits for too long.</summary>
    Stuck,

    /// <summary>Steps coarser than stated.</summary>
    Quantised,

    /// <summary>Follows its neighbours late.</summary>
    Slow,

    /// <summary>Has moved away from its neighbours for days.</summary>
    Drifting,

    /// <summary>Far from its neighbours, which agree: sun, exhaust, a heater.</summary>
    Outvoted,

    /// <summary>Seems to sit in the place of another sensor.</summary>
    Swapped,

    /// <summary>Two devices send under one id.</summary>
    ConflictingTwin,

    /// <summary>The sender's clock is ahead; taken off when it is known by how much.</summary>
    ClockOffset,

    /// <summary>Stamped so long ago that the sender's clock cannot be right.</summary>
    StampTooOld,

    /// <summary>Reports at another period than stated.</summary>
    PeriodChanged,

    /// <summary>Many of its values are spikes.</summary>
    Noisy,

    /// <summary>Another physical sensor, or a new calibration, since a short while: a step then is not temperature.</summary>
    Recalibrated,

    /// <summary>Older than raw readings are kept, so that nobody can tell any more whether it was there.</summary>
    TooOld,
}
