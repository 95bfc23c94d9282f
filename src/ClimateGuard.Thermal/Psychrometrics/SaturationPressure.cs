using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The pressure of water vapour over liquid water and over ice.</summary>
/// <remarks>Hyland and Wexler's correlation as printed in ASHRAE Handbook Fundamentals, chapter 1, equations 5 and 6 (from memory,
/// checked against table 3 of the 2017 edition).</remarks>
public static class SaturationPressure
{
    /// <summary>The lowest temperature of the correlation, in °C.</summary>
    public const double Lowest = -100;

    /// <summary>The highest temperature of the correlation, in °C.</summary>
    public const double Highest = 200;

    private const double ZeroCelsiusInKelvin = 273.15;

    /// <summary>Over liquid water from 0 °C, over ice below.</summary>
    /// <param name="temperature">In [-100, 200] °C.</param>
    /// <returns>The pressure, in Pa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature lies outside its range, or is not a number.</exception>
    public static double Pascals(Celsius temperature)
    {
        FormulaInput.InRange(temperature.Value, Lowest, Highest, "°C", nameof(temperature));
        return Math.Exp(Logarithm(temperature.Value));
    }

    /// <summary>The temperature at which a vapour pressure is that of saturation: dew point from 0 °C, frost point below.</summary>
    /// <remarks>By inversion of the correlation to 1e-9 K, not by an approximating polynomial.</remarks>
    /// <param name="vapourPressurePascals">In Pa, within what the correlation covers: [0.0014, 1 554 000].</param>
    /// <returns>The dew or frost point.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pressure lies outside its range, or is not a number.</exception>
    public static Celsius TemperatureAt(double vapourPressurePascals)
    {
        FormulaInput.InRange(vapourPressurePascals, Math.Exp(Logarithm(Lowest)), Math.Exp(Logarithm(Highest)), "Pa");
        var target = Math.Log(vapourPressurePascals);
        double low = Lowest, high = Highest;
        while (high - low > 1e-10)
        {
            var middle = (low + high) / 2;
            if (Logarithm(middle) < target) low = middle;
            else high = middle;
        }

        return new((low + high) / 2);
    }

    private static double Logarithm(double celsius)
    {
        var t = celsius + ZeroCelsiusInKelvin;
        return celsius < 0
            ? (-5.6745359e3 / t) + 6.3925247 + (t * (-9.677843e-3 + (t * (6.2215701e-7 + (t * (2.0747825e-9 - (t * 9.484024e-13)))))))
                + (4.1635019 * Math.Log(t))
            : (-5.8002206e3 / t) + 1.3914993 + (t * (-4.8640239e-2 + (t * (4.1764768e-5 - (t * 1.4452093e-8)))))
                + (6.5459673 * Math.Log(t));
    }
}
