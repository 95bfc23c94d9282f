using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>ASHRAE Handbook Fundamentals, chapter 1, psychrometrics (tables 1 to 3 of 2017 seen quoted; formulas from memory, recomputed).</summary>
public sealed class AshraePsychrometrics
{
    [Theory]
    [InlineData(-60, 1.08, 0.01)] // table 3, Pa; absolute
    [InlineData(-20, 103.24, 103.24 * 3e-4)]
    [InlineData(-5, 401.74, 401.74 * 3e-4)]
    [InlineData(5, 872.6, 872.6 * 3e-4)]
    [InlineData(25, 3169.7, 3169.7 * 3e-4)]
    [InlineData(50, 12351.3, 12351.3 * 3e-4)]
    [InlineData(100, 101418.0, 101418.0 * 3e-4)]
    [InlineData(150, 476101.4, 476101.4 * 3e-4)]
    public void Saturation_pressure_of_table_3(double celsius, double pascals, double tolerance) =>
        Within.Absolute(pascals, SaturationPressure.Pascals(new(celsius)), tolerance);

    [Fact]
    public void Saturation_pressure_of_the_formula()
    {
        foreach (var row in PublishedTable.Rows(PsychrometricRows.Saturation))
        {
            var (t, p) = (PublishedTable.Number(row[0]), PublishedTable.Number(row[1]));
            Within.Absolute(p, SaturationPressure.Pascals(new(t)), 1e-6, $"{t} °C");
            Within.Absolute(t, SaturationPressure.TemperatureAt(p).Value, 1e-5, $"{p} Pa");
        }
    }

    [Fact]
    public void States_of_moist_air()
    {
        foreach (var row in PublishedTable.Rows(PsychrometricRows.States).Select(cells => cells.Select(PublishedTable.Number).ToArray()))
        {
            var what = FormattableString.Invariant($"{row[0]} °C {row[1]}");
            var air = MoistAir.AtRelativeHumidity(new(row[0]), row[1], row[2]);
            Within.Relative(row[4], air.VapourPressurePascals, 1e-7, what + " pw");
            Within.Absolute(row[5], air.HumidityRatio, 1e-9, what + " W");
            Within.Absolute(row[6], air.DewPoint.Value, 1e-4, what + " dew point");
            Within.Absolute(row[7], air.WetBulb.Value, 1e-4, what + " wet bulb");
            Within.Absolute(row[8], air.EnthalpyKilojoulesPerKilogram, 1e-5, what + " h");
            Within.Absolute(row[9], air.SpecificVolumeCubicMetresPerKilogram, 1e-7, what + " v");
            Within.Absolute(row[1], air.RelativeHumidity, 1e-12, what);
        }
    }

    [Theory]
    [InlineData(5, 0.005425, 0.005)] // table 2, humidity ratio at saturation, relative
    [InlineData(25, 0.020173, 0.005)]
    [InlineData(50, 0.086863, 0.01)]
    public void Humidity_ratio_at_saturation_of_table_2(double celsius, double ratio, double tolerance) =>
        Within.Relative(ratio, MoistAir.AtRelativeHumidity(new(celsius), 1).HumidityRatio, tolerance);

    [Theory]
    [InlineData(5, 18.639)] // table 2, kJ/kg, 1 %
    [InlineData(25, 76.504)]
    public void Enthalpy_at_saturation_of_table_2(double celsius, double enthalpy) =>
        Within.Relative(enthalpy, MoistAir.AtRelativeHumidity(new(celsius), 1).EnthalpyKilojoulesPerKilogram, 0.01);

    [Fact]
    public void Enthalpy_of_moist_air() => // 30 °C, W 0.02: 81.316 kJ/kg, 3e-4
        Within.Relative(81.316, MoistAir.AtHumidityRatio(new(30), 0.02).EnthalpyKilojoulesPerKilogram, 3e-4);

    [Fact]
    public void Humidity_ratio_at_500_metres()
    {
        // W from p_w 3169.7 Pa at 95 461 Pa: 0.021 360 399 804 7; the ratio gives its vapour pressure back
        var air = MoistAir.AtHumidityRatio(new(30), 0.0213603998047, 95461);
        Within.Absolute(3169.7, air.VapourPressurePascals, 1e-5);
    }

    [Theory]
    [InlineData(0, 101325)] // table 1, Pa, tolerance 1
    [InlineData(500, 95461)]
    [InlineData(1000, 89875)]
    [InlineData(-500, 107478)]
    public void The_standard_atmosphere_of_table_1(double metres, double pascals) =>
        Within.Absolute(pascals, StandardAtmosphere.Pascals(metres), 1);

    [Fact]
    public void Handbook_example_1()
    {
        var air = MoistAir.AtWetBulb(new(40), new(20)); // 101 325 Pa
        Within.Absolute(0.0065, air.HumidityRatio, 1e-4); // printed
        Within.Absolute(7, air.DewPoint.Value, 0.5);
        Within.Absolute(0.14, air.RelativeHumidity, 0.01);
        Within.Absolute(56.7, air.EnthalpyKilojoulesPerKilogram, 0.1);
        Within.Relative(0.896, air.SpecificVolumeCubicMetresPerKilogram, 0.01);
        // The formula itself, recomputed. It gives W 0.0064: the print reads its chart.
        Within.Absolute(0.006400786, air.HumidityRatio, 1e-9);
        Within.Absolute(7.433611, air.DewPoint.Value, 1e-5);
        Within.Absolute(0.13979488, air.RelativeHumidity, 1e-7);
        Within.Absolute(20, air.WetBulb.Value, 1e-8);
    }

    [Theory]
    [InlineData(0.45, 13.0)] // 20 °C: a wet part in moving air cools to about 13.0 °C at 45 % and 15.0 °C at 60 %; 0.2 K
    [InlineData(0.60, 15.0)]
    public void A_wet_part_cools_towards_the_wet_bulb(double humidity, double celsius) =>
        Within.Absolute(celsius, MoistAir.AtRelativeHumidity(new(20), humidity).WetBulb.Value, 0.2);

    [Fact]
    public void Frost_point_and_iced_wet_bulb_below_zero()
    {
        // Saturation pressure over ice at -10 °C 259.902865 Pa (formula recomputed)
        var air = MoistAir.AtDewPoint(new(-5), new(-10));
        Within.Absolute(259.902865, air.VapourPressurePascals, 1e-6);
        Within.Absolute(-10, air.DewPoint.Value, 1e-8);
        Within.Absolute(-6.576072, air.WetBulb.Value, 1e-6); // equation 35, iced bulb, recomputed elsewhere
    }

    [Fact]
    public void Energy_of_an_air_stream()
    {
        Within.Absolute(0.166666667, AirStream.OutdoorShare(new(20), new(22), new(10), new(2))!.Value, 1e-9);
        Within.Absolute(0.688009, AirStream.FanRise(500, 0.6).Value, 1e-6);
        Within.Absolute(12.11224, AirStream.SensibleHeatKilowatts(1, new(10)), 1e-9);
        Assert.Null(AirStream.OutdoorShare(new(21), new(22), new(21), new(2)));
    }
}
