namespace ClimateGuard.Thermal;

/// <summary>What surrounds a machine and its part over one step of time.</summary>
/// <remarks>Held constant over the step. Equality by members; no order. The default is 0 °C air: build it with values. Immutable.</remarks>
/// <param name="AirCelsius">Local air, in °C, finite.</param>
/// <param name="Medium">What covers the part.</param>
/// <param name="CoolantCelsius">Coolant or dielectric, in °C; used only when the medium is one of them.</param>
/// <param name="WetBulbCelsius">Wet-bulb temperature of the air, in °C; used only when the part is wet.</param>
/// <param name="SpindleLoad">How hard the spindle works, 0 (still) to 1 (full).</param>
public readonly record struct Surroundings(
    double AirCelsius,
    Medium Medium = Medium.Air,
    double CoolantCelsius = double.NaN,
    double WetBulbCelsius = double.NaN,
    double SpindleLoad = 0)
{
    /// <summary>The temperature the part moves towards, in °C; for a wet part as if it were wet all over.</summary>
    public double SinkCelsius => Medium switch
    {
        Medium.Mist or Medium.Flood or Medium.Submerged => CoolantCelsius,
        Medium.Wet => WetBulbCelsius,
        _ => AirCelsius,
    };
}

/// <summary>What covers a part.</summary>
public enum Medium
{
    /// <summary>Enclosure air.</summary>
    Air,

    /// <summary>Room air blown by a fan.</summary>
    Fan,

    /// <summary>Mist.</summary>
    Mist,

    /// <summary>Flood coolant.</summary>
    Flood,

    /// <summary>Dielectric around it.</summary>
    Submerged,

    /// <summary>A surface drying in the air: where it is wet it moves towards the wet-bulb temperature, three times as fast.</summary>
    Wet,

    /// <summary>Nothing moves: the state is taken as it stands (a case without surroundings).</summary>
    Still,
}
