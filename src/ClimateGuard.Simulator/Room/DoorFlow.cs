namespace ClimateGuard.Simulator;

/// <summary>Heat through an open door by buoyancy alone.</summary>
/// <remarks>Q = Cd·(W/3)·√(g·H³·ΔT/T), both ways at once; Cd = 0.40 + 0.0045·ΔT (from memory; about 0.5 is also in use).</remarks>
public static class DoorFlow
{
    private const double AirHeatJoulesPerCubicMetreKelvin = 1.2 * 1006.0;
    private const double Gravity = 9.81;
    private const double KelvinAtZeroCelsius = 273.15;

    /// <summary>Heat into the room, in W; negative when the outside is colder.</summary>
    /// <param name="insideCelsius">Air inside, in °C.</param>
    /// <param name="outsideCelsius">Air outside, in °C.</param>
    /// <param name="widthMetres">Width, in m.</param>
    /// <param name="heightMetres">Height, in m.</param>
    /// <param name="dischargeCoefficient">Cd, or null for the law that depends on ΔT.</param>
    public static double Watts(
        double insideCelsius, double outsideCelsius, double widthMetres = 3.0, double heightMetres = 3.5, double? dischargeCoefficient = null)
    {
        var difference = outsideCelsius - insideCelsius;
        var flow = CubicMetresPerSecond(insideCelsius, outsideCelsius, widthMetres, heightMetres, dischargeCoefficient);
        return AirHeatJoulesPerCubicMetreKelvin * flow * difference;
    }

    /// <summary>Air exchanged, in m³/s each way.</summary>
    public static double CubicMetresPerSecond(
        double insideCelsius, double outsideCelsius, double widthMetres = 3.0, double heightMetres = 3.5, double? dischargeCoefficient = null)
    {
        var difference = Math.Abs(outsideCelsius - insideCelsius);
        var coefficient = dischargeCoefficient ?? (0.40 + (0.0045 * difference));
        var kelvin = insideCelsius + KelvinAtZeroCelsius;
        return coefficient * widthMetres / 3.0 * Math.Sqrt(Gravity * Math.Pow(heightMetres, 3) * difference / kelvin);
    }
}
