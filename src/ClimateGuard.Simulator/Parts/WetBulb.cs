namespace ClimateGuard.Simulator;

/// <summary>The temperature a wet surface in moving air goes towards.</summary>
public static class WetBulb
{
    /// <summary>Wet-bulb temperature, in °C, at sea level.</summary>
    /// <remarks>Stull, Journal of Applied Meteorology and Climatology 50 (2011), p. 2267 (from memory). Within 1 K for 5 to 99 %, −20 to 50 °C.</remarks>
    public static double Celsius(double airCelsius, double humidityPercent) =>
        (airCelsius * Math.Atan(0.151977 * Math.Sqrt(humidityPercent + 8.313659)))
        + Math.Atan(airCelsius + humidityPercent)
        - Math.Atan(humidityPercent - 1.676331)
        + (0.00391838 * Math.Pow(humidityPercent, 1.5) * Math.Atan(0.023101 * humidityPercent))
        - 4.686035;
}
