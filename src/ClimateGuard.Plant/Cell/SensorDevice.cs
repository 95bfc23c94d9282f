namespace ClimateGuard.Plant;

/// <summary>What kind of device stands behind a sensor; each sends numbers of its own for an open, shorted or unpowered probe.</summary>
public enum SensorDevice
{
    /// <summary>Not stated.</summary>
    Generic,

    /// <summary>A platinum resistor with its transmitter.</summary>
    Pt100,

    /// <summary>A thermocouple with its transmitter.</summary>
    Thermocouple,

    /// <summary>A DS18B20 on a one-wire bus.</summary>
    Ds18b20,

    /// <summary>A thermistor with negative coefficient.</summary>
    Ntc,

    /// <summary>A transmitter on a loop of 4 to 20 mA, see <see cref="Sensor.LoopRange"/>.</summary>
    CurrentLoop,
}
