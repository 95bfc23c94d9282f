using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>A unit or a decimal place that a temperature may have been sent in by mistake.</summary>
internal enum MistakenUnit
{
    None,
    Fahrenheit,
    Kelvin,
    Tenths,
    Hundredths,
    CelsiusTakenForFahrenheit,
    CelsiusTakenForKelvin,
}

/// <summary>Recognises a temperature in another unit. It never converts for use: what cannot be read one way only is refused.</summary>
/// <remarks>
/// A value that is not plausible counts as mixed up when in another unit it continues what the sensor said last, or else what this place is
/// usually like. A plausible value counts so only when it lies far from the last one and, taken as °F, close to it.
/// Common practice, no source.
/// </remarks>
internal static class UnitMixUp
{
    private const double FarFromTheLast = 8.0;
    private const double Continues = 1.0;
    private const double ContinuesRoughly = 5.0;

    private static readonly MistakenUnit[] All =
        [MistakenUnit.Fahrenheit, MistakenUnit.Kelvin, MistakenUnit.Tenths, MistakenUnit.Hundredths, MistakenUnit.CelsiusTakenForFahrenheit, MistakenUnit.CelsiusTakenForKelvin];

    /// <summary>What the value looks like, or <see cref="MistakenUnit.None"/>.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="value">The value in °C as decoded.</param>
    /// <param name="last">The last value believed, or what it stood for in the right unit, or NaN.</param>
    public static MistakenUnit Guess(Sensor sensor, double value, double last)
    {
        if (sensor.Quantity != SensorQuantity.Temperature)
        {
            return MistakenUnit.None;
        }

        var plausible = value >= sensor.PlausibleLow && value <= sensor.PlausibleHigh;
        if (plausible && !(Math.Abs(value - last) >= FarFromTheLast))
        {
            return MistakenUnit.None;
        }

        var expected = double.IsNaN(last) ? Usual(sensor.Place) : last;
        var within = plausible ? Continues : ContinuesRoughly;
        var best = MistakenUnit.None;
        foreach (var unit in All)
        {
            var off = Math.Abs(InCelsius(value, unit) - expected);
            if (Fits(sensor, unit) && (!plausible || unit == MistakenUnit.Fahrenheit) && off <= within)
            {
                (best, within) = (unit, off);
            }
        }

        return best;
    }

    /// <summary>What the value would be in °C.</summary>
    public static double InCelsius(double value, MistakenUnit unit) => unit switch
    {
        MistakenUnit.Fahrenheit => (value - 32) * 5 / 9,
        MistakenUnit.Kelvin => value - 273.15,
        MistakenUnit.Tenths => value / 10,
        MistakenUnit.Hundredths => value / 100,
        MistakenUnit.CelsiusTakenForFahrenheit => (value * 9 / 5) + 32,
        MistakenUnit.CelsiusTakenForKelvin => value + 273.15,
        _ => value,
    };

    /// <summary>What it looks like, in words.</summary>
    public static string Says(double value, MistakenUnit unit) => string.Create(
        CultureInfo.InvariantCulture, $"reads like {Word(unit)}: {value:0.0##} would be {InCelsius(value, unit):0.0} °C");

    private static string Word(MistakenUnit unit) => unit switch
    {
        MistakenUnit.Fahrenheit => "°F",
        MistakenUnit.Kelvin => "K",
        MistakenUnit.Tenths => "tenths of a degree",
        MistakenUnit.Hundredths => "hundredths of a degree",
        MistakenUnit.CelsiusTakenForFahrenheit => "°C although the plant file says F",
        _ => "°C although the plant file says K",
    };

    private static bool Fits(Sensor sensor, MistakenUnit unit) => unit switch
    {
        MistakenUnit.CelsiusTakenForFahrenheit => sensor.Unit == SensorUnits.Fahrenheit,
        MistakenUnit.CelsiusTakenForKelvin => sensor.Unit == SensorUnits.Kelvin,
        MistakenUnit.Fahrenheit => sensor.Unit != SensorUnits.Fahrenheit,
        MistakenUnit.Kelvin => sensor.Unit != SensorUnits.Kelvin,
        _ => true,
    };

    private static double Usual(SensorPlace place) =>
        place is SensorPlace.Outdoor or SensorPlace.Hall or SensorPlace.Storage or SensorPlace.ChilledWater or SensorPlace.Supply
            ? double.NaN
            : Celsius.Reference.Value;
}
