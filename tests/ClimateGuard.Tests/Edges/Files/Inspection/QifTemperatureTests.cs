using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Edges.Files.Inspection;

/// <summary>
/// How warm an inspected part was: ProductEnvironments of the actual component, Traceability.xsd of QIF 3.0; factors and offsets as the documentation of
/// UnitConversionType in Units.xsd states them (kelvin = (value + Offset)·Factor; Celsius 1 and 273.15, Fahrenheit 0.555555556 and 459.67).
/// </summary>
public sealed class QifTemperatureTests
{
    private const string Celsius = "<TemperatureUnit><SIUnitName>kelvin</SIUnitName><UnitName>C</UnitName><UnitConversion><Factor>1.0</Factor><Offset>273.15</Offset></UnitConversion></TemperatureUnit>";
    private const string Fahrenheit = "<TemperatureUnit><SIUnitName>kelvin</SIUnitName><UnitName>F</UnitName><UnitConversion><Factor>0.555555556</Factor><Offset>459.67</Offset></UnitConversion></TemperatureUnit>";

    private static readonly Cell Small = SmallCell.Of(features: [new SizeFeature { Id = "bore", ToleranceMillimetres = 0.02, Budget = new BudgetRule(null, 0.3), NominalMillimetres = 10 }]);

    [Theory]
    [InlineData(Celsius, "<ObjectTemperature>20.6</ObjectTemperature>", 20.6)]
    [InlineData(Fahrenheit, "<ObjectTemperature>69.08</ObjectTemperature>", 20.6)]
    [InlineData("", "<ObjectTemperature>293.75</ObjectTemperature>", 20.6)]
    [InlineData(Celsius + Fahrenheit, "<ObjectTemperature temperatureUnit=\"F\">69.08</ObjectTemperature>", 20.6)]
    public void The_temperature_of_the_part_is_read_in_the_unit_of_the_file(string units, string stated, double celsius) =>
        Assert.Equal(celsius, Part(units, Environment(stated)), 1e-6);

    [Fact]
    public void Of_several_environments_the_mean_counts_and_that_of_the_air_is_none_of_the_part() =>
        Assert.Equal(21.0, Part(Celsius, Environment("<ObjectTemperature>20.5</ObjectTemperature><AmbientTemperature>19</AmbientTemperature>") + Environment("<ObjectTemperature>21.5</ObjectTemperature>")), 1e-9);

    [Fact]
    public void What_stands_in_the_file_counts_before_what_the_mapping_says_of_all_files()
    {
        var (mapping, problems) = DeviceMappingReader.Read("""{"device":"CMM-1","unit":"mm","temperatureUnit":"C","fixed":{"partC":"22.5","deviceC":"20.1"}}"""u8.ToArray());
        Assert.Empty(problems);

        var stated = Value(Read(Celsius, Environment("<ObjectTemperature>20.5</ObjectTemperature>"), mapping));
        var silent = Value(Read(Celsius, "", mapping));

        Assert.Equal((20.5, 20.1), (Math.Round(stated.PartCelsius!.Value, 9), stated.DeviceCelsius));
        Assert.Equal((22.5, 20.1), (silent.PartCelsius, silent.DeviceCelsius));
    }

    [Theory]
    [InlineData("", "<ObjectTemperature>20.6</ObjectTemperature>", "would be -252.6 °C")]
    [InlineData(Celsius, "<ObjectTemperature temperatureUnit=\"R\">20.6</ObjectTemperature>", "temperatureUnit \"R\" is not known; FileUnits must say it")]
    [InlineData(Celsius, "<ObjectTemperature>warm</ObjectTemperature>", "ObjectTemperature is \"warm\"; a decimal number is allowed")]
    [InlineData("<TemperatureUnit><UnitName>X</UnitName><UnitConversion><Factor>0</Factor></UnitConversion></TemperatureUnit>", "<ObjectTemperature>20.6</ObjectTemperature>", "no positive UnitConversion/Factor")]
    public void What_cannot_be_a_temperature_refuses_the_file_and_says_where(string units, string stated, string problem)
    {
        var read = Read(units, Environment(stated), null);

        Assert.Empty(read.Values);
        Assert.Contains(read.Problems, one => one.StartsWith("line ", StringComparison.Ordinal) && one.Contains(problem, StringComparison.Ordinal));
    }

    private static string Environment(string stated) => $"<Environment>{stated}<DateAndTime>2026-03-02T12:00:00Z</DateAndTime></Environment>";

    private static double Part(string units, string environments) => Value(Read(units, environments, null)).PartCelsius!.Value;

    private static InspectionValue Value(InspectionImport read)
    {
        Assert.Empty(read.Problems);
        return Assert.Single(read.Values);
    }

    private static InspectionImport Read(string units, string environments, DeviceMapping? mapping)
    {
        var text = new QifText();
        return InspectionFile.Read((text with
        {
            Unit = text.Unit + units,
            Traceability = environments.Length == 0 ? "" : $"<Traceability><ProductEnvironments n=\"1\">{environments}</ProductEnvironments></Traceability>",
        }).Bytes, Small, mapping);
    }
}
