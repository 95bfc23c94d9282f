using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Knows the numbers that devices send in place of a measurement: open, shorted, unpowered, not yet started.</summary>
/// <remarks>
/// A device that is stated is believed to send its own numbers even where they are plausible, unless the sensor was already close to
/// them: a DS18B20 in a kiln passes through 85 °C, one in an enclosure does not jump there. Without a stated device, a number counts only
/// where it is not plausible.
/// </remarks>
internal sealed class DeviceSentinels
{
    private const double CloseToTheLast = 2.0;

    // NAMUR NE 43 (from memory): a loop at or below 3.6 mA or at or above 21 mA reports a fault of the sensor.
    private const double FaultLowMilliamperes = 3.6;
    private const double FaultHighMilliamperes = 21.0;

    // What any firmware may send; 0 is a measurement wherever it is plausible (common practice, no source).
    private static readonly double[] OfAny =
        [-273.15, -999, -999.9, -9999, 999, 999.9, 9999, 3276.7, 6553.5, 32767, -32768, 65535, -99.9, 0];

    // Open and short of a platinum resistor by its table, and its ends (IEC 60751 runs from -200 to 850 °C; -242 is 0 Ω; from memory).
    private static readonly double[] OfPt100 = [-242, -200, 850];

    // The ends of types J, K and N (from memory: IEC 60584), to which a transmitter drives an open thermocouple.
    private static readonly double[] OfThermocouple = [-270, -210, 1200, 1300, 1372];

    // 85 is the value of the register at power-on, -127 what common drivers give for a device that does not answer (data sheet and drivers, from memory).
    private static readonly double[] OfDs18b20 = [85, -127];

    private static readonly double[] OfNtc = [-55, -50, 150, 200];

    private static readonly double[] OfEveryDevice = [.. OfAny, .. OfPt100, .. OfThermocouple, .. OfDs18b20];

    private readonly double[] own;
    private readonly Sensor sensor;
    private readonly double faultLow = double.NegativeInfinity;
    private readonly double faultHigh = double.PositiveInfinity;

    public DeviceSentinels(Sensor sensor)
    {
        this.sensor = sensor;
        own = sensor.Device switch
        {
            SensorDevice.Pt100 => OfPt100,
            SensorDevice.Thermocouple => OfThermocouple,
            SensorDevice.Ds18b20 => OfDs18b20,
            SensorDevice.Ntc => OfNtc,
            _ => [],
        };
        if (sensor is { Device: SensorDevice.CurrentLoop, LoopRange: { } loop })
        {
            faultLow = AtCurrent(loop, FaultLowMilliamperes);
            faultHigh = AtCurrent(loop, FaultHighMilliamperes);
        }
    }

    /// <summary>Whether a value stands for a broken sensor.</summary>
    /// <param name="value">The value.</param>
    /// <param name="last">The last value that was believed, or NaN.</param>
    public bool Has(double value, double last)
    {
        if (value <= faultLow || value >= faultHigh)
        {
            return true;
        }

        var plausible = value >= sensor.PlausibleLow && value <= sensor.PlausibleHigh;
        if (plausible)
        {
            return Array.IndexOf(own, value) >= 0 && !(Math.Abs(value - last) <= CloseToTheLast);
        }

        return Array.IndexOf(sensor.Device == SensorDevice.Generic ? OfEveryDevice : own, value) >= 0 || Array.IndexOf(OfAny, value) >= 0;
    }

    private static double AtCurrent((double At4, double At20) loop, double milliamperes) =>
        loop.At4 + ((milliamperes - 4) / 16 * (loop.At20 - loop.At4));
}
