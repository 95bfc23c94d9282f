using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Energy and mixing in an air handler's stream.</summary>
public static class AirStream
{
    /// <summary>Density of air at 20 °C and sea level, in kg/m³ (ASHRAE standard air).</summary>
    public const double StandardDensityKilogramsPerCubicMetre = 1.204;

    /// <summary>Specific heat of dry air, in J/(kg K).</summary>
    public const double SpecificHeatJoulesPerKilogramKelvin = 1006;

    /// <summary>The share of outdoor air by its temperatures: (T_mixed − T_return)/(T_outdoor − T_return).</summary>
    /// <remarks>Mass and energy balance of mixing two streams of the same specific heat. Not limited to [0, 1]: a share outside is
    /// itself a sign of a wrong sensor.</remarks>
    /// <param name="mixed">Mixed air, a finite temperature.</param>
    /// <param name="returned">Return air, a finite temperature.</param>
    /// <param name="outdoor">Outdoor air, a finite temperature.</param>
    /// <param name="smallestSeparation">How far outdoor and return air must differ for an answer, above 0 K.</param>
    /// <returns>The share, or null when outdoor and return air are too near to each other to tell.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number, or the smallest separation is not above 0 K.</exception>
    public static double? OutdoorShare(Celsius mixed, Celsius returned, Celsius outdoor, Kelvins smallestSeparation)
    {
        FormulaInput.Positive(smallestSeparation.Value, "K", nameof(smallestSeparation));
        FormulaInput.Finite(mixed.Value, "°C", nameof(mixed));
        var separation = FormulaInput.Finite((outdoor - returned).Value, "°C", nameof(outdoor));
        return Math.Abs(separation) < smallestSeparation.Value ? null : (mixed - returned).Value / separation;
    }

    /// <summary>How much a fan with its motor in the stream warms the air: Δp/(η·ρ·c).</summary>
    /// <param name="pressureRisePascals">Δp, in Pa, 0 or more.</param>
    /// <param name="efficiency">η of fan and motor together, in (0, 1].</param>
    /// <param name="densityKilogramsPerCubicMetre">ρ, in kg/m³, above 0.</param>
    /// <returns>The rise, 0 K or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static Kelvins FanRise(
        double pressureRisePascals, double efficiency, double densityKilogramsPerCubicMetre = StandardDensityKilogramsPerCubicMetre)
    {
        FormulaInput.NotNegative(pressureRisePascals, "Pa");
        FormulaInput.InRange(FormulaInput.Positive(efficiency, ""), 0, 1, "");
        FormulaInput.Positive(densityKilogramsPerCubicMetre, "kg/m³");
        return new(pressureRisePascals / (efficiency * densityKilogramsPerCubicMetre * SpecificHeatJoulesPerKilogramKelvin));
    }

    /// <summary>Sensible heat of a stream: V̇·ρ·c·ΔT.</summary>
    /// <param name="flowCubicMetresPerSecond">V̇, in m³/s, 0 or more.</param>
    /// <param name="rise">How much warmer the air leaves than it enters.</param>
    /// <param name="densityKilogramsPerCubicMetre">ρ, in kg/m³, above 0.</param>
    /// <returns>The heat, in kW, with the sign of the rise.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double SensibleHeatKilowatts(
        double flowCubicMetresPerSecond, Kelvins rise, double densityKilogramsPerCubicMetre = StandardDensityKilogramsPerCubicMetre)
    {
        FormulaInput.NotNegative(flowCubicMetresPerSecond, "m³/s");
        FormulaInput.Finite(rise.Value, "K", nameof(rise));
        FormulaInput.Positive(densityKilogramsPerCubicMetre, "kg/m³");
        return flowCubicMetresPerSecond * densityKilogramsPerCubicMetre * SpecificHeatJoulesPerKilogramKelvin * rise.Value / 1000;
    }
}
