namespace ClimateGuard.Watch;

/// <summary>What is known at one moment of the surroundings of one machine; NaN where it is not known.</summary>
/// <remarks>Equality by members; no order; the default is all zero: build it with values. Immutable.</remarks>
/// <param name="AirCelsius">Local air.</param>
/// <param name="CoolantCelsius">Coolant or dielectric.</param>
/// <param name="PartCelsius">A sensor on the part.</param>
/// <param name="PartUncertaintyKelvins">Its standard uncertainty.</param>
/// <param name="ScaleCelsius">A sensor on the scale.</param>
/// <param name="ScaleUncertaintyKelvins">Its standard uncertainty.</param>
/// <param name="StorageCelsius">Where parts for this machine wait.</param>
/// <param name="HallCelsius">The hall around the enclosure.</param>
/// <param name="RelativeHumidity">Relative humidity of the air, in %.</param>
public readonly record struct LocalClimate(
    double AirCelsius,
    double CoolantCelsius,
    double PartCelsius,
    double PartUncertaintyKelvins,
    double ScaleCelsius,
    double ScaleUncertaintyKelvins,
    double StorageCelsius,
    double HallCelsius,
    double RelativeHumidity)
{
    /// <summary>Coolant of the machine that a part comes from, at the moment it is loaded; null when it is not known or comes from elsewhere.</summary>
    public double? OriginCoolantCelsius { get; init; }

    /// <summary>How old the oldest input in use is, or null when none is in use.</summary>
    public TimeSpan? OldestInput { get; init; }

    /// <summary>Why the air is not known, or null.</summary>
    public string? AirMissingBecause { get; init; }

    /// <summary>Why the coolant is not known, or null.</summary>
    public string? CoolantMissingBecause { get; init; }
}
