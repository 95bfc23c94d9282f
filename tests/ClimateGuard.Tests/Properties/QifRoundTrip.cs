using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Files;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Edges.Files.Inspection;
using ClimateGuard.Tests.Support;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

/// <summary>What is written with the elements of the QIF 3.0 schemas (ISO 23952) is read back, whatever unit the document has.</summary>
public sealed class QifRoundTrip
{
    private static readonly Cell Small = SmallCell.Of(features:
    [
        new SizeFeature { Id = "bore", ToleranceMillimetres = 0.02, Budget = new BudgetRule(null, 0.3), NominalMillimetres = 10 },
        new PositionFeature
        {
            Id = "holes", ToleranceMillimetres = 0.06, Budget = new BudgetRule(18, null),
            Circle = new BoltCircle(450, 4, 0), Points = new BoltCircle(450, 4, 0).Points(),
        },
    ]);

    // Millimetres per unit: the inch is 25.4 mm exactly (international yard and pound agreement of 1959).
    private static readonly (string Name, double Millimetres)[] Units = [("mm", 1), ("m", 1000), ("inch", 25.4)];

    private static readonly DeviceCompensation[] Modes =
        [DeviceCompensation.None, DeviceCompensation.DeviceOnly, DeviceCompensation.DeviceAndPartSame, DeviceCompensation.DeviceAndPartSeparate];

    [Fact]
    public void Values_vectors_uncertainty_mode_time_and_serial_come_back() => Gen.Select(
        Gen.Select(Gen.Double[-60, 60], Gen.Double[-60, 60], Gen.Double[-60, 60], Gen.Double[0.1, 9]), Gen.Int[0, 2], Gen.Int[0, 3], Gen.Int[0, 500_000], Gen.Int[1, 9999]).Sample(
        (micrometres, unit, mode, minutes, number) =>
        {
            var (bore, dx, dy, u) = micrometres;
            var time = new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.FromHours(2)).AddMinutes(minutes);
            var read = InspectionFile.Read(Document(bore, dx, dy, u, Units[unit], Modes[mode], time, number), Small);
            var (size, hole) = (read.Values.Single(value => value.Feature.Id == "bore"), read.Values.Single(value => value.Feature.Id == "holes"));
            return read.Problems.Count == 0 && size.Serial == $"S{number}" && size.MeasuredAt == time && size.Compensation == Modes[mode] && hole.Compensation == Modes[mode]
                && Near(bore, size.DeviationMicrometres) && Near(u, size.UMicrometres!.Value) && hole.Hole == 2
                && Near(dx, hole.DxMicrometres!.Value) && Near(dy, hole.DyMicrometres!.Value) && Near(2 * double.Hypot(dx, dy), hole.DeviationMicrometres);
        },
        iter: 300);

    [Fact]
    public void Temperatures_that_the_mapping_states_stand_beside_every_value_whatever_their_unit() => Gen.Select(Gen.Double[-20, 60], Gen.Double[15, 25], Gen.Int[0, 2]).Sample(
        (part, device, which) =>
        {
            var unit = "CFK"[which];
            string Stated(double celsius) => (unit switch { 'F' => (celsius * 1.8) + 32, 'K' => celsius + 273.15, _ => celsius }).ToString("0.0000000000", CultureInfo.InvariantCulture);
            var json = $$"""{ "device": "CMM-1", "unit": "mm", "temperatureUnit": "{{unit}}", "fixed": { "partC": "{{Stated(part)}}", "deviceC": "{{Stated(device)}}" } }""";
            var (mapping, problems) = DeviceMappingReader.Read(Encoding.UTF8.GetBytes(json));
            var read = InspectionFile.Read(new QifText { Measurements = QifText.Bore("10.002") + QifText.Hole("") }.Bytes, Small, mapping);
            return problems.Count == 0 && read.Problems.Count == 0 && read.Notes.Count == 0 && read.Values.Count == 2
                && read.Values.All(value => Near(part, value.PartCelsius!.Value) && Near(device, value.DeviceCelsius!.Value));
        },
        iter: 100);

    private static byte[] Document(
        double bore, double dx, double dy, double u, (string Name, double Millimetres) unit, DeviceCompensation mode, DateTimeOffset time, int number)
    {
        string Length(double millimetres) => (millimetres / unit.Millimetres).ToString("R", CultureInfo.InvariantCulture);
        var text = new QifText
        {
            Unit = $"<LinearUnit><SIUnitName>meter</SIUnitName><UnitName>{unit.Name}</UnitName><UnitConversion><Factor>{(unit.Millimetres / 1000).ToString("R", CultureInfo.InvariantCulture)}</Factor></UnitConversion></LinearUnit>",
            Compensation = $"<TemperatureCompensation><TemperatureCompensationEnum>{CompensationWords.Word(mode)}</TemperatureCompensationEnum></TemperatureCompensation>",
            Serial = $"<SerialNumber>S{number}</SerialNumber>",
            End = time.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
            Measurements = QifText.Bore(Length(10 + (bore / 1000)), $"combinedUncertainty=\"{Length(u / 1000)}\"") + QifText.Hole(""),
        };
        return Encoding.UTF8.GetBytes(text.Text
            .Replace("<TargetValue>10<", $"<TargetValue>{Length(10)}<", StringComparison.Ordinal)
            .Replace("<AxisPoint>0 450 0<", $"<AxisPoint>0 {Length(450)} 0<", StringComparison.Ordinal)
            .Replace("<AxisPoint>0.003 450.004 0<", $"<AxisPoint>{Length(dx / 1000)} {Length(450 + (dy / 1000))} 0<", StringComparison.Ordinal));
    }

    private static bool Near(double expected, double actual) => Math.Abs(expected - actual) < 1e-6;
}
