using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>One inspected deviation of one feature, or of one of its holes, as the device reported it.</summary>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation.</param>
/// <param name="Machine">Id of the machine it was cut on.</param>
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

    /// <summary>Whether the deviation lies in the tolerance of the plant file: diameter of the zone, or plus-or-minus half width.</summary>
    public bool InTolerance => Math.Abs(DeviationMicrometres) <= Feature.ToleranceMillimetres * 1000;
}
