namespace ClimateGuard.Plant;

/// <summary>What a sensor measures.</summary>
public enum SensorQuantity
{
    /// <summary>Temperature; canonical unit °C.</summary>
    Temperature,

    /// <summary>Relative humidity; canonical unit %.</summary>
    RelativeHumidity,

    /// <summary>An open or closed contact; 1 is open.</summary>
    Contact,

    /// <summary>A share from 0 to 1, such as a valve command.</summary>
    Fraction,

    /// <summary>Pressure; canonical unit Pa.</summary>
    Pressure,

    /// <summary>Flow; canonical unit m³/h.</summary>
    Flow,

    /// <summary>Power; canonical unit kW.</summary>
    Power,

    /// <summary>Rotational speed; canonical unit 1/min.</summary>
    Speed,
}

/// <summary>Where a sensor sits.</summary>
public enum SensorPlace
{
    /// <summary>In the air of a zone or beside a machine.</summary>
    Air,

    /// <summary>In the supply air of an air handler.</summary>
    Supply,

    /// <summary>In the return air of an air handler.</summary>
    Return,

    /// <summary>In the mixed air of an air handler.</summary>
    Mixed,

    /// <summary>Outdoors.</summary>
    Outdoor,

    /// <summary>In the hall around the enclosure.</summary>
    Hall,

    /// <summary>In the coolant of a machine.</summary>
    Coolant,

    /// <summary>In the dielectric of an erosion machine.</summary>
    Dielectric,

    /// <summary>On the scale of a machine.</summary>
    Scale,

    /// <summary>On the structure of a machine.</summary>
    Structure,

    /// <summary>On the part.</summary>
    Part,

    /// <summary>On a pallet.</summary>
    Pallet,

    /// <summary>Where blanks or pallets wait outside the enclosure.</summary>
    Storage,

    /// <summary>In the chilled water.</summary>
    ChilledWater,

    /// <summary>A command or status of an air handler.</summary>
    Command,

    /// <summary>On a door.</summary>
    Door,
}

/// <summary>The units a payload or a plant file may name.</summary>
public static class SensorUnits
{
    /// <summary>Degrees Celsius.</summary>
    public const string Celsius = "C";

    /// <summary>Degrees Fahrenheit.</summary>
    public const string Fahrenheit = "F";

    /// <summary>Kelvin (absolute).</summary>
    public const string Kelvin = "K";

    /// <summary>All units, by the quantity they measure; the first of each is canonical.</summary>
    public static IReadOnlyDictionary<SensorQuantity, IReadOnlyList<string>> ByQuantity { get; } =
        new Dictionary<SensorQuantity, IReadOnlyList<string>>
        {
            [SensorQuantity.Temperature] = [Celsius, Fahrenheit, Kelvin],
            [SensorQuantity.RelativeHumidity] = ["%", "fraction"],
            [SensorQuantity.Contact] = ["open", "fraction"],
            [SensorQuantity.Fraction] = ["fraction", "%"],
            [SensorQuantity.Pressure] = ["Pa", "hPa", "kPa", "inH2O"],
            [SensorQuantity.Flow] = ["m3/h", "m3/s", "l/s", "l/min"],
            [SensorQuantity.Power] = ["kW", "W"],
            [SensorQuantity.Speed] = ["1/min", "fraction", "%"],
        };
}
