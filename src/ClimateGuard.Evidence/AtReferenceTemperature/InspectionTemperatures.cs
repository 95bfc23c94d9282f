namespace ClimateGuard.Evidence;

/// <summary>A temperature at an inspection with its standard uncertainty; equality is by value.</summary>
/// <param name="Celsius">In °C, in [−50, 150].</param>
/// <param name="StandardUncertainty">In K, 0 or more.</param>
public readonly record struct MeasuredTemperature(double Celsius, double StandardUncertainty);

/// <summary>A coefficient of expansion with its standard uncertainty; equality is by value.</summary>
/// <param name="MicrometresPerMetreKelvin">α, in µm/(m·K), in [−5, 100].</param>
/// <param name="StandardUncertainty">u(α), in µm/(m·K), 0 or more.</param>
public readonly record struct MeasuredExpansion(double MicrometresPerMetreKelvin, double StandardUncertainty);

/// <summary>What is known of temperatures and expansions while a part was measured; equality is by value.</summary>
public sealed record InspectionTemperatures
{
    /// <summary>Expansion of the part.</summary>
    public required MeasuredExpansion PartExpansion { get; init; }

    /// <summary>The true temperature of the part, or null when it was not taken.</summary>
    public MeasuredTemperature? Part { get; init; }

    /// <summary>The temperature of the device's scale, or null when it was not taken.</summary>
    public MeasuredTemperature? Device { get; init; }

    /// <summary>Expansion of the device's scale, or null when it is not known; needed for an uncompensated device only.</summary>
    public MeasuredExpansion? DeviceExpansion { get; init; }

    /// <summary>The expansion the device itself used for the part; null when it used that of <see cref="PartExpansion"/>.</summary>
    public double? ExpansionUsedByDevice { get; init; }

    /// <summary>Standard uncertainty of the device's own part sensor, in K, where it corrects by that; 0.2 K is common, no source.</summary>
    public double UDevicePartSensor { get; init; } = 0.2;
}
