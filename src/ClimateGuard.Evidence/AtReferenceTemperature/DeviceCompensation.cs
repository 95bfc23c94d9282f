namespace ClimateGuard.Evidence;

/// <summary>What a measuring device has already done about temperature before it reports.</summary>
/// <remarks>The four modes of QIF 3.0 (ISO 23952), TemperatureCompensation; its "undefined" and anything else is Unknown.</remarks>
public enum DeviceCompensation
{
    /// <summary>Not stated, or not one of the four.</summary>
    Unknown,

    /// <summary>NONE: the reading is the part at its temperature on a scale at its temperature.</summary>
    None,

    /// <summary>DEVICE_ONLY: the scale is corrected to 20 °C, the part is not.</summary>
    DeviceOnly,

    /// <summary>DEVICE_AND_PART_SAME: both are corrected, with the temperature of the device taken for the part.</summary>
    DeviceAndPartSame,

    /// <summary>DEVICE_AND_PART_SEPARATE: both are corrected, each with its own temperature.</summary>
    DeviceAndPartSeparate,
}
