using System.Globalization;
using System.Xml.Linq;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>One measured characteristic of a QIF document, followed from its measurement to item, nominal and definition.</summary>
internal static class QifCharacteristic
{
    /// <summary>A value, or why it was left out, or neither when it was not measured.</summary>
    public readonly record struct Result(InspectionValue? Value, string? LeftOut);

    public static Result Read(QifDocument document, QifInspection inspection, XElement measured, List<string> problems)
    {
        var item = document.Follow(measured, "CharacteristicItemId");
        if (item is null)
        {
            problems.Add($"line {measured.Line()}: {measured.Name.LocalName} names no CharacteristicItem of the document");
            return default;
        }

        if (inspection.Part is not { } part)
        {
            return default;
        }

        string[] names = [.. new[] { item.Element(QifReader.Qif + "CharacteristicDesignator").Child("Designator"), item.Child("Name") }.OfType<string>().Where(name => name.Length > 0)];
        var (feature, hole) = names.Select(name => PlantNames.Feature(part, name, document.Mapping)).FirstOrDefault(found => found.Feature is not null);
        if (feature is null)
        {
            return new(null, $"characteristic {Printable.Clean(string.Join(" / ", names), 60)} ({measured.Name.LocalName}) is no feature of {part.Number} in the plant file; left out");
        }

        var isPosition = measured.Name.LocalName is "PositionCharacteristicMeasurement" or "CoaxialityCharacteristicMeasurement" or "ConcentricityCharacteristicMeasurement";
        if (isPosition != feature is PositionFeature or CoaxialityFeature)
        {
            problems.Add($"line {measured.Line()}: {feature.Id} is a {feature.Kind} in the plant file and a {measured.Name.LocalName} in the document");
            return default;
        }

        return Component(document, inspection, measured, problems) is not ({ } serial, var celsius) ? default : Value(
            document, inspection, measured, item,
            new InspectionValue(serial, "", "", feature, 0) { Part = part.Number, Hole = hole, Line = measured.Line(), PartCelsius = celsius }, problems);
    }

    // The measurement's own component, else that of the whole inspection.
    private static (string? Serial, double? Celsius) Component(QifDocument document, QifInspection inspection, XElement measured, List<string> problems)
    {
        var component = document.Follow(measured, "ActualComponentId");
        var serial = QifInspection.SerialOf(component) ?? inspection.Serial;
        if (serial is null or { Length: > 200 })
        {
            problems.Add($"line {measured.Line()}: no SerialNumber of an actual component belongs to it; a serial is never guessed");
            return default;
        }

        return (serial, component is null ? inspection.PartCelsius : QifTemperatures.PartOf(document, component, problems));
    }

    private static Result Value(QifDocument document, QifInspection inspection, XElement measured, XElement item, InspectionValue value, List<string> problems)
    {
        var before = problems.Count;
        var nominal = document.Follow(item, "CharacteristicNominalId");
        var definition = document.Follow(nominal, "CharacteristicDefinitionId");
        var stated = measured.Element(QifReader.Qif + "Value");
        var micrometres = document.Units.Micrometres(stated, problems);
        var vector = QifHoles.VectorOf(document, measured, value.Feature, problems);
        var deviation = value.Feature is PositionFeature or CoaxialityFeature
            ? Diametral(micrometres, definition, measured, problems) ?? (vector is { } hole ? 2 * double.Hypot(hole.Dx, hole.Dy) : null)
            : micrometres - (document.Units.Micrometres(nominal?.Element(QifReader.Qif + "TargetValue"), problems) ?? ResultsFileReader.Nominal(value.Feature) * 1000);
        if (deviation is not { } known || problems.Count > before)
        {
            return default;
        }

        var device = document.FollowFirst(measured, "MeasurementDeviceIds") ?? document.FollowFirst(item, "MeasurementDeviceIds");
        var mapping = document.Mapping;
        var read = value with
        {
            DeviationMicrometres = known,
            Hole = value.Hole ?? vector?.Hole,
            DxMicrometres = vector?.Dx,
            DyMicrometres = vector?.Dy,
            Machine = mapping?.Fixed.GetValueOrDefault("machine") ?? "",
            Operation = mapping?.Fixed.GetValueOrDefault("operation") ?? "",
            MeasuredAt = QifInspection.Time(document, measured.Element(QifReader.Qif + "TimeStamp"), problems) ?? inspection.End,
            UMicrometres = Uncertainty(document, stated, problems) ?? mapping?.UMicrometres,
            Device = device.Child("Name") ?? device.Child("SerialNumber") ?? mapping?.Device ?? "",
            Compensation = Compensation(device) ?? mapping?.Compensation ?? DeviceCompensation.Unknown,
            DeviceAlphaMicrometresPerMetreKelvin = mapping?.ScaleAlpha,
            PartCelsius = value.PartCelsius ?? mapping?.FixedCelsius("partC"),
            DeviceCelsius = mapping?.FixedCelsius("deviceC"),
        };
        return problems.Count > before ? default : new(read, null);
    }

    private static double? Diametral(double? micrometres, XElement? definition, XElement measured, List<string> problems)
    {
        // The value of a spherical or planar zone is a width or a ball, not the diameter of a cylinder.
        var zone = definition?.Element(QifReader.Qif + "ZoneShape")?.Elements().FirstOrDefault();
        if (micrometres is not null && zone is not null && zone.Name != QifReader.Qif + "DiametralZone")
        {
            problems.Add($"line {measured.Line()}: the zone is {Printable.Clean(zone.Name.LocalName, 40)}; a DiametralZone, whose value is 2·|d|, is read");
            return null;
        }

        return micrometres;
    }

    private static double? Uncertainty(QifDocument document, XElement? stated, List<string> problems)
    {
        if (stated?.Attribute("combinedUncertainty")?.Value is not { } text)
        {
            return null;
        }

        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var u) && u > 0 && double.IsFinite(u))
        {
            return u * document.Units.Factor(stated, problems);
        }

        problems.Add($"line {stated.Line()}: combinedUncertainty is \"{Printable.Clean(text, 40)}\"; a positive number is allowed");
        return null;
    }

    private static DeviceCompensation? Compensation(XElement? device) =>
        device?.Element(QifReader.Qif + "TemperatureCompensation") is { } stated
            ? CompensationWords.Read(stated.Child("TemperatureCompensationEnum") ?? "?") ?? DeviceCompensation.Unknown
            : null;
}
