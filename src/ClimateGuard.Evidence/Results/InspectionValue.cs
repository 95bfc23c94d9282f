using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>One inspected deviation of one feature, or of one of its holes, as the device reported it.</summary>
/// <remarks>Nothing is corrected in here; what temperature left in it is taken out by <see cref="ReferenceCorrection"/>, beside it.</remarks>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation; empty when the file does not say.</param>
/// <param name="Machine">Id of the machine it was cut on; empty when the file does not say.</param>
/// <param name="Feature">The feature of the part.</param>
/// <param name="DeviationMicrometres">Deviation in µm; for position and coaxiality the diametral value, 2·|d|.</param>
public sealed record InspectionValue(string Serial, string Operation, string Machine, Feature Feature, double DeviationMicrometres)
{
    /// <summary>Part number, or empty when not stated.</summary>
    public string Part { get; init; } = "";

    /// <summary>Number of the hole in the order of the plant file, from 1, or null.</summary>
    public int? Hole { get; init; }

    /// <summary>Deviation of the hole along the first axis, in µm, or null.</summary>
    public double? DxMicrometres { get; init; }

    /// <summary>Deviation of the hole along the second axis, in µm, or null.</summary>
    public double? DyMicrometres { get; init; }

    /// <summary>When it was measured, or null when the file does not say.</summary>
    public DateTimeOffset? MeasuredAt { get; init; }

    /// <summary>Standard uncertainty of the measurement without temperature, in µm, or null.</summary>
    public double? UMicrometres { get; init; }

    /// <summary>The device that measured it, or empty.</summary>
    public string Device { get; init; } = "";

    /// <summary>What the device had done about temperature before it reported.</summary>
    public DeviceCompensation Compensation { get; init; }

    /// <summary>Temperature of the part at the inspection, in °C, or null.</summary>
    public double? PartCelsius { get; init; }

    /// <summary>Temperature of the device's scale at the inspection, in °C, or null.</summary>
    public double? DeviceCelsius { get; init; }

    /// <summary>Expansion of the device's scale, in µm/(m·K), or null; needed for an uncompensated device only.</summary>
    public double? DeviceAlphaMicrometresPerMetreKelvin { get; init; }

    /// <summary>The line of the file it stands in, from 1; 0 when it did not come from a file.</summary>
    public int Line { get; init; }

    /// <summary>Whether the deviation lies in the tolerance of the plant file: diameter of the zone, or plus-or-minus half width.</summary>
    public bool InTolerance => Math.Abs(DeviationMicrometres) <= Feature.ToleranceMillimetres * 1000;
}
