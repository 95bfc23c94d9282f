namespace ClimateGuard.Simulator;

/// <summary>Water in air at sea level, by the Magnus formula; the simulator's own, 1 % of pressure is enough for it.</summary>
/// <remarks>e_s = 611.2 Pa · exp(17.62·t/(243.12 + t)), t in °C (WMO guide no. 8, from memory).</remarks>
public static class HumidAir
{
    private const double PressurePascals = 101_325;

    /// <summary>Saturation pressure over water, in Pa.</summary>
    public static double SaturationPascals(double celsius) => 611.2 * Math.Exp(17.62 * celsius / (243.12 + celsius));

    /// <summary>Water in kg per kg of dry air.</summary>
    public static double Share(double celsius, double percent)
    {
        var vapour = percent / 100.0 * SaturationPascals(celsius);
        return 0.622 * vapour / (PressurePascals - vapour);
    }

    /// <summary>Relative humidity, in %.</summary>
    public static double Percent(double celsius, double share) => 100.0 * Vapour(share) / SaturationPascals(celsius);

    /// <summary>Dew point, in °C.</summary>
    public static double DewPointCelsius(double share)
    {
        var x = Math.Log(Vapour(share) / 611.2);
        return 243.12 * x / (17.62 - x);
    }

    private static double Vapour(double share) => PressurePascals * share / (0.622 + share);
}
