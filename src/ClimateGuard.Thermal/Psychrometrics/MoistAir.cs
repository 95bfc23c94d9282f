using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The state of moist air: dry bulb, vapour pressure and total pressure; everything else follows.</summary>
/// <remarks>
/// Ideal-gas relations of ASHRAE Handbook Fundamentals, chapter 1 (from memory, checked against its tables 2 and 3): good to about
/// 0.7 % at room conditions. Immutable, so safe across threads. Made by <see cref="AtRelativeHumidity"/>,
/// <see cref="AtHumidityRatio"/>, <see cref="AtDewPoint"/> or <see cref="AtWetBulb"/>.
/// </remarks>
public sealed record MoistAir
{
    private const double MolarMassRatio = 0.621945;
    private const double LowestDryBulb = -60;
    private const double HighestDryBulb = 90;

    private MoistAir(Celsius dryBulb, double vapourPressurePascals, double pressurePascals)
    {
        DryBulb = dryBulb;
        VapourPressurePascals = vapourPressurePascals;
        PressurePascals = pressurePascals;
    }

    /// <summary>What a thermometer in the shade reads, in [-60, 90] °C.</summary>
    public Celsius DryBulb { get; }

    /// <summary>The partial pressure of water vapour, in Pa, above 0.</summary>
    public double VapourPressurePascals { get; }

    /// <summary>The total pressure, in Pa, in [50 000, 120 000].</summary>
    public double PressurePascals { get; }

    /// <summary>W, kg of water per kg of dry air: 0.621945·p_w/(p − p_w).</summary>
    public double HumidityRatio => RatioOf(VapourPressurePascals, PressurePascals);

    /// <summary>φ, the vapour pressure as a share of saturation at the dry bulb; above 1 only for fog.</summary>
    public double RelativeHumidity => VapourPressurePascals / SaturationPressure.Pascals(DryBulb);

    /// <summary>The dew point from 0 °C, the frost point below, by inversion of the saturation pressure.</summary>
    public Celsius DewPoint => SaturationPressure.TemperatureAt(VapourPressurePascals);

    /// <summary>h = 1.006·t + W·(2501 + 1.86·t), in kJ per kg of dry air, zero for dry air at 0 °C.</summary>
    public double EnthalpyKilojoulesPerKilogram => (1.006 * DryBulb.Value) + (HumidityRatio * (2501 + (1.86 * DryBulb.Value)));

    /// <summary>v = 0.287042·(t + 273.15)·(1 + 1.607858·W)/p with p in kPa, in m³ per kg of dry air.</summary>
    public double SpecificVolumeCubicMetresPerKilogram =>
        0.287042 * (DryBulb.Value + 273.15) * (1 + (1.607858 * HumidityRatio)) / (PressurePascals / 1000);

    /// <summary>(1 + W)/v, in kg of moist air per m³.</summary>
    public double DensityKilogramsPerCubicMetre => (1 + HumidityRatio) / SpecificVolumeCubicMetresPerKilogram;

    /// <summary>The temperature a wetted surface in moving air takes (thermodynamic wet bulb), to 1e-9 K.</summary>
    /// <remarks>ASHRAE Handbook Fundamentals, chapter 1, equation 33, and equation 35 for an iced bulb below 0 °C.</remarks>
    public Celsius WetBulb
    {
        get
        {
            var w = HumidityRatio;
            double low = Math.Min(DewPoint.Value, DryBulb.Value), high = DryBulb.Value;
            while (high - low > 1e-10)
            {
                var middle = (low + high) / 2;
                if (RatioAtWetBulb(DryBulb.Value, middle, PressurePascals) < w) low = middle;
                else high = middle;
            }

            return new((low + high) / 2);
        }
    }

    /// <summary>Air by its relative humidity.</summary>
    /// <param name="dryBulb">In [-60, 90] °C.</param>
    /// <param name="relativeHumidity">φ, in [0.001, 1].</param>
    /// <param name="pressurePascals">Total pressure, in [50 000, 120 000] Pa.</param>
    /// <returns>The state.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static MoistAir AtRelativeHumidity(Celsius dryBulb, double relativeHumidity, double pressurePascals = StandardAtmosphere.SeaLevelPascals)
    {
        Check(dryBulb, pressurePascals);
        FormulaInput.InRange(relativeHumidity, 0.001, 1, "");
        return new(dryBulb, relativeHumidity * SaturationPressure.Pascals(dryBulb), pressurePascals);
    }

    /// <summary>Air by its humidity ratio.</summary>
    /// <param name="dryBulb">In [-60, 90] °C.</param>
    /// <param name="humidityRatio">W, in [1e-6, 1] kg of water per kg of dry air.</param>
    /// <param name="pressurePascals">Total pressure, in [50 000, 120 000] Pa.</param>
    /// <returns>The state.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static MoistAir AtHumidityRatio(Celsius dryBulb, double humidityRatio, double pressurePascals = StandardAtmosphere.SeaLevelPascals)
    {
        Check(dryBulb, pressurePascals);
        FormulaInput.InRange(humidityRatio, 1e-6, 1, "kg/kg");
        return new(dryBulb, humidityRatio * pressurePascals / (MolarMassRatio + humidityRatio), pressurePascals);
    }

    /// <summary>Air by its dew or frost point.</summary>
    /// <param name="dryBulb">In [-60, 90] °C.</param>
    /// <param name="dewPoint">In [-90 °C, the dry bulb].</param>
    /// <param name="pressurePascals">Total pressure, in [50 000, 120 000] Pa.</param>
    /// <returns>The state.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static MoistAir AtDewPoint(Celsius dryBulb, Celsius dewPoint, double pressurePascals = StandardAtmosphere.SeaLevelPascals)
    {
        Check(dryBulb, pressurePascals);
        FormulaInput.InRange(dewPoint.Value, -90, dryBulb.Value, "°C", nameof(dewPoint));
        return new(dryBulb, SaturationPressure.Pascals(dewPoint), pressurePascals);
    }

    /// <summary>Air by its thermodynamic wet bulb.</summary>
    /// <param name="dryBulb">In [-60, 90] °C.</param>
    /// <param name="wetBulb">At most the dry bulb, and not so low that the air would hold less than no water.</param>
    /// <param name="pressurePascals">Total pressure, in [50 000, 120 000] Pa.</param>
    /// <returns>The state.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static MoistAir AtWetBulb(Celsius dryBulb, Celsius wetBulb, double pressurePascals = StandardAtmosphere.SeaLevelPascals)
    {
        Check(dryBulb, pressurePascals);
        FormulaInput.InRange(wetBulb.Value, -90, dryBulb.Value, "°C", nameof(wetBulb));
        var ratio = RatioAtWetBulb(dryBulb.Value, wetBulb.Value, pressurePascals);
        if (ratio < 1e-6)
        {
            throw new ArgumentOutOfRangeException(
                nameof(wetBulb), wetBulb.Value, FormattableString.Invariant($"wetBulb is lower than dry air of {dryBulb.Value} °C allows."));
        }

        return AtHumidityRatio(dryBulb, ratio, pressurePascals);
    }

    private static double RatioOf(double vapourPressure, double pressure) => MolarMassRatio * vapourPressure / (pressure - vapourPressure);

    private static double RatioAtWetBulb(double dryBulb, double wetBulb, double pressure)
    {
        var saturated = RatioOf(SaturationPressure.Pascals(new(wetBulb)), pressure);
        var fall = 1.006 * (dryBulb - wetBulb);
        return wetBulb >= 0
            ? (((2501 - (2.326 * wetBulb)) * saturated) - fall) / (2501 + (1.86 * dryBulb) - (4.186 * wetBulb))
            : (((2830 - (0.24 * wetBulb)) * saturated) - fall) / (2830 + (1.86 * dryBulb) - (2.1 * wetBulb));
    }

    private static void Check(Celsius dryBulb, double pressurePascals)
    {
        FormulaInput.InRange(dryBulb.Value, LowestDryBulb, HighestDryBulb, "°C", nameof(dryBulb));
        FormulaInput.InRange(pressurePascals, StandardAtmosphere.LowestPascals, StandardAtmosphere.HighestPascals, "Pa");
        // 90 °C at the lowest pressure would boil; there the ratio has no meaning.
        if (SaturationPressure.Pascals(dryBulb) < 0.95 * pressurePascals) return;
        throw new ArgumentOutOfRangeException(
            nameof(dryBulb), dryBulb.Value, FormattableString.Invariant($"dryBulb is too near boiling at {pressurePascals} Pa."));
    }
}
