namespace ClimateGuard.Enclosure;

/// <summary>The signals of an air handler at one moment; NaN where one is not known. °C and 0 to 1.</summary>
/// <param name="Supply">Supply air.</param>
/// <param name="SupplySetPoint">Set point of the supply air.</param>
/// <param name="Mixed">Mixed air.</param>
/// <param name="Return">Return air.</param>
/// <param name="Outdoor">Outdoor air.</param>
/// <param name="Heating">Command of the heating coil.</param>
/// <param name="Cooling">Command of the cooling coil.</param>
/// <param name="Damper">Command of the outdoor air damper.</param>
public readonly record struct AirHandlerSample(
    double Supply, double SupplySetPoint, double Mixed, double Return, double Outdoor, double Heating, double Cooling, double Damper)
{
    /// <summary>Share of outdoor air by temperatures; NaN when they are too close.</summary>
    internal double OutdoorShare(double leastDifference) =>
        Math.Abs(Return - Outdoor) >= leastDifference ? (Mixed - Return) / (Outdoor - Return) : double.NaN;
}

/// <summary>How an air handler works at a moment, by its commands.</summary>
public enum OperatingMode
{
    /// <summary>Heating with the least outdoor air.</summary>
    Heating = 1,

    /// <summary>Cooling with outdoor air alone.</summary>
    FreeCooling = 2,

    /// <summary>Mechanical cooling with all outdoor air.</summary>
    MechanicalAllOutdoor = 3,

    /// <summary>Mechanical cooling with the least outdoor air.</summary>
    MechanicalLeastOutdoor = 4,

    /// <summary>Any other combination.</summary>
    Other = 5,
}
