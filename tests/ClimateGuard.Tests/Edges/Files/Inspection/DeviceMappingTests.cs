using System.Text;
using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Edges.Files.Inspection;

public sealed class DeviceMappingTests
{
    // A file as a measuring program of the region writes it: two header lines, semicolons, decimal commas, mm, day first, local time.
    private const string Mapping = """
        {
          "device": "CMM-2", "unit": "mm", "separator": ";", "decimal": ",", "headerLine": 2, "firstRow": 4,
          "time": { "order": "dmy", "zone": "Europe/Vienna" },
          "position": "radial", "sign": "nominalMinusMeasured", "compensation": "DEVICE_ONLY", "scaleAlpha": 8.0, "uUm": 2.5,
          "columns": { "serial": "Teil", "feature": "Merkmal", "time": "Zeit", "deviation": "Abw.", "dx": "dX", "dy": "dY", "partC": "T" },
          "fixed": { "part": "D-1", "operation": "40", "machine": "M1" },
          "features": { "Lochkreis 3": "holes#3" }
        }
        """;

    private const string Head = "Protokoll 7\nTeil;Merkmal;Zeit;Abw.;dX;dY;T\n;;;mm;mm;mm;C\n";

    [Fact]
    public void A_saved_mapping_reads_decimal_commas_day_first_local_time_radial_positions_and_the_turned_sign()
    {
        var value = Assert.Single(Read("S1;Lochkreis 3;02.03.2026 14:05;0,005;-0,003;-0,004;20,40").Values);

        Assert.Equal(("S1", "holes", 3, "CMM-2", "40", "M1"), (value.Serial, value.Feature.Id, value.Hole, value.Device, value.Operation, value.Machine));
        Assert.Equal((10.0, 3.0, 4.0), (Math.Round(value.DeviationMicrometres, 6), Math.Round(value.DxMicrometres!.Value, 6), Math.Round(value.DyMicrometres!.Value, 6)));
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 13, 5, 0, TimeSpan.Zero), value.MeasuredAt);
        Assert.Equal((DeviceCompensation.DeviceOnly, 8.0, 2.5, 20.4), (value.Compensation, value.DeviceAlphaMicrometresPerMetreKelvin, value.UMicrometres, value.PartCelsius));
    }

    [Theory]
    [InlineData("first", "2026-10-25T00:30:00Z")]
    [InlineData("second", "2026-10-25T01:30:00Z")]
    public void The_hour_that_comes_twice_is_told_apart_by_the_mapping(string which, string utc)
    {
        // Central European summer time ends on 25 October 2026: 02:30 comes at 00:30Z and again at 01:30Z (EU Directive 2000/84/EC).
        var said = Mapping.Replace("\"Europe/Vienna\"", $"\"Europe/Vienna\", \"repeatedHour\": \"{which}\"", StringComparison.Ordinal);
        Assert.Equal(DateTimeOffset.Parse(utc, System.Globalization.CultureInfo.InvariantCulture), Assert.Single(Read("S1;Lochkreis 3;25.10.2026 02:30;0,005;;;", said).Values).MeasuredAt);
    }

    [Theory]
    [InlineData("S1;Lochkreis 3;25.10.2026 02:30;0,005;;;", "occurs twice in Europe/Vienna")]
    [InlineData("S1;Lochkreis 3;29.03.2026 02:30;0,005;;;", "does not exist in Europe/Vienna")]
    [InlineData("S1;Lochkreis 3;03/15/2026 02:30;0,005;;;", "day.month.year hour:minute")]
    [InlineData("S1;Lochkreis 3;02.03.26 02:30;0,005;;;", "a year of four digits")]
    [InlineData("S1;Lochkreis 3;02.03.2026 14:05;1.005;;;", "Abw. is \"1.005\"; a number in mm with a decimal comma")]
    [InlineData("S1;Lochkreis 4;02.03.2026 14:05;0,005;;;", "part D-1 has no feature Lochkreis 4")]
    [InlineData("S1;Lochkreis 3;02.03.2026 14:05;0,005;;;2040", "-50 to 150 °C are allowed")]
    public void What_the_mapping_does_not_allow_refuses_the_whole_file(string row, string said)
    {
        var read = Read("S0;Lochkreis 3;02.03.2026 14:05;0,005;;;\n" + row);

        Assert.Empty(read.Values);
        Assert.Contains(said, Assert.Single(read.Problems), StringComparison.Ordinal);
        Assert.StartsWith("line 5:", read.Problems[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_blank_is_not_zero_and_a_measurement_that_was_repeated_is_kept_twice()
    {
        var read = Read("S1;Lochkreis 3;02.03.2026 14:05;0,005;;;\nS1;Lochkreis 3;02.03.2026 16:05;0,004;;;\nS2;Lochkreis 3;02.03.2026 16:05;;;;");

        Assert.Equal([10.0, 8.0], read.Values.Select(value => Math.Round(value.DeviationMicrometres, 6)));
        Assert.Equal(1, read.NotMeasured);
    }

    [Fact]
    public void Positions_that_equal_their_vector_look_radial_and_that_is_told()
    {
        const string own = "serial,part,operation,machine,feature,hole,time,deviationUm,dxUm,dyUm\nS1,D-1,40,M1,holes,1,,50,30,40\n";

        Assert.Contains("look radial", Assert.Single(InspectionFile.Read(Encoding.UTF8.GetBytes(own), SmallCell.Of()).Notes), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{\"device\":\"A\"}", "unit: one of um, µm, mm, m, in, mil is needed; a unit is never assumed")]
    [InlineData("{\"device\":\"A\",\"unit\":\"mm\",\"decimal\":\",\"}", "separator: one character other than the decimal sign")]
    [InlineData("{\"device\":\"A\",\"unit\":\"mm\",\"unitt\":\"mm\"}", "line 1:")]
    [InlineData("{\"device\":\"../A\",\"unit\":\"mm\"}", "device: 1 to 60 letters")]
    [InlineData("{\"device\":\"A\",\"unit\":\"mm\",\"columns\":{\"seriel\":\"x\"}}", "did you mean serial?")]
    [InlineData("{\"device\":\"A\",\"unit\":\"mm\",\"time\":{\"order\":\"dmy\"}}", "time.zone: an IANA time zone")]
    public void A_mapping_that_is_not_whole_is_refused(string json, string said)
    {
        var (mapping, problems) = DeviceMappingReader.Read(Encoding.UTF8.GetBytes(json));

        Assert.Null(mapping);
        Assert.Contains(problems, problem => problem.Contains(said, StringComparison.Ordinal));
    }

    private static InspectionImport Read(string rows, string mapping = Mapping)
    {
        var (how, problems) = DeviceMappingReader.Read(Encoding.UTF8.GetBytes(mapping));
        Assert.Empty(problems);
        return InspectionFile.Read(Encoding.UTF8.GetBytes(Head + rows + "\n"), SmallCell.Of(), how);
    }

    [Theory]
    [InlineData("C", ".", "293.5")]
    [InlineData("C", ".", "warm")]
    [InlineData("C", ",", "20.4")]
    [InlineData("K", ".", "20.4")]
    public void A_temperature_for_all_of_a_file_that_its_unit_cannot_mean_refuses_the_mapping(string unit, string point, string stated)
    {
        var json = $$"""{ "device": "CMM-1", "unit": "mm", "separator": ";", "decimal": "{{point}}", "temperatureUnit": "{{unit}}", "fixed": { "partC": "{{stated}}" } }""";
        var (mapping, problems) = DeviceMappingReader.Read(Encoding.UTF8.GetBytes(json));

        Assert.Null(mapping);
        Assert.Equal([$"fixed.partC: a temperature in °{unit} (temperatureUnit), of -50 to 150 °C, is allowed: is the unit right?"], problems);
    }
}
