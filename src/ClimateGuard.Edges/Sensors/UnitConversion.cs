using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Sensors;

/// <summary>How a number in a foreign unit becomes one in the canonical unit of its quantity: (raw + before)·times/over.</summary>
/// <remarks>
/// The factors are the exact ones of the definitions; a test sets them against UnitsNet. Numerator and denominator stand apart so that
/// 57 % is 0.57 and not 0.5700000000000001.
/// </remarks>
/// <param name="Before">Added first.</param>
/// <param name="Times">Multiplied with then.</param>
/// <param name="Over">Divided by last.</param>
internal readonly record struct UnitConversion(double Before, double Times, double Over)
{
    private const double ZeroCelsiusInKelvin = 273.15;
    private const double FreezingInFahrenheit = 32;

    // The conventional inch of water: 25.4 mm of 1000 kg/m³ under standard gravity, 9.80665 m/s² (NIST SP 811, B.8, gives 249.0889 Pa).
    private const double PascalsPerInchOfWater = 25.4 * 9.80665;

    private static readonly UnitConversion None = new(0, 1, 1);

    /// <summary>The value in the canonical unit.</summary>
    internal double ToCanonical(double raw) => (raw + Before) * Times / Over;

    /// <summary>
    /// The conversion for a unit named in <see cref="SensorUnits.ByQuantity"/>, or null when the quantity does not have that unit,
    /// or when a share of full speed meets a sensor in 1/min (or the reverse), because the full speed is not known.
    /// </summary>
    internal static UnitConversion? Find(SensorQuantity quantity, string unit, string declaredUnit)
    {
        if (!SensorUnits.ByQuantity[quantity].Contains(unit)
            || (quantity == SensorQuantity.Speed && (unit == "1/min") != (declaredUnit == "1/min")))
        {
            return null;
        }

        return (quantity, unit) switch
        {
            (_, SensorUnits.Fahrenheit) => new(-FreezingInFahrenheit, 5, 9),
            (_, SensorUnits.Kelvin) => new(-ZeroCelsiusInKelvin, 1, 1),
            (SensorQuantity.RelativeHumidity, "fraction") => new(0, 100, 1),
            (SensorQuantity.Fraction or SensorQuantity.Speed, "%") => new(0, 1, 100),
            (_, "hPa") => new(0, 100, 1),
            (_, "kPa") => new(0, 1000, 1),
            (_, "inH2O") => new(0, PascalsPerInchOfWater, 1),
            (_, "m3/s") => new(0, 3600, 1),
            (_, "l/s") => new(0, 3.6, 1),
            (_, "l/min") => new(0, 60, 1000),
            (_, "W") => new(0, 1, 1000),
            _ => None,
        };
    }
}
