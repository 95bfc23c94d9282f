using System.Globalization;
using System.Xml.Linq;
using ClimateGuard.Edges.Json;

namespace ClimateGuard.Edges.Files;

/// <summary>How warm an inspected part was, by the environments that its traceability lists.</summary>
/// <remarks>
/// <c>ProductEnvironments/Environment/ObjectTemperature</c> of the actual component (Traceability.xsd of QIF 3.0), in units of <c>FileUnits</c>:
/// kelvin = (value + Offset)·Factor (Units.xsd). The schema takes kelvin where no unit is said; what that makes absurd is refused, not guessed.
/// The temperature of the air there is none of the device, so that of the device stays with the mapping.
/// </remarks>
internal static class QifTemperatures
{
    private const double KelvinOfZeroCelsius = 273.15;

    /// <summary>The mean over the environments, °C; null when none is stated, or with a problem when one cannot be read.</summary>
    public static double? PartOf(QifDocument document, XElement? component, List<string> problems)
    {
        var stated = component?.Descendants(QifReader.Qif + "ProductEnvironments").Elements(QifReader.Qif + "Environment").Elements(QifReader.Qif + "ObjectTemperature").ToList();
        if (stated is not { Count: > 0 })
        {
            return null;
        }

        var before = problems.Count;
        double[] known = [.. stated.Select(value => Celsius(document.Root, value, problems)).OfType<double>()];
        return problems.Count > before ? null : known.Average();
    }

    private static double? Celsius(XElement root, XElement value, List<string> problems)
    {
        var text = value.Value.Trim();
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
        {
            problems.Add($"line {value.Line()}: ObjectTemperature is \"{Printable.Clean(text, 40)}\"; a decimal number is allowed");
            return null;
        }

        if (Conversion(root, value, problems) is not { } unit)
        {
            return null;
        }

        var celsius = ((number + unit.Offset) * unit.Factor) - KelvinOfZeroCelsius;
        if (InspectionCelsius.IsPossible(celsius))
        {
            return celsius;
        }

        problems.Add(string.Create(
            CultureInfo.InvariantCulture,
            $"line {value.Line()}: ObjectTemperature {number} ({Printable.Clean(unit.Name, 40)}) would be {celsius:0.0} °C; {InspectionCelsius.Range} is allowed: is its unit said in FileUnits?"));
        return null;
    }

    private static (string Name, double Factor, double Offset)? Conversion(XElement root, XElement value, List<string> problems)
    {
        var units = root.Element(QifReader.Qif + "FileUnits");
        var named = value.Attribute("temperatureUnit")?.Value;
        var unit = named is null
            ? units?.Element(QifReader.Qif + "PrimaryUnits")?.Element(QifReader.Qif + "TemperatureUnit")
            : units?.Descendants(QifReader.Qif + "TemperatureUnit").FirstOrDefault(one => one.Child("UnitName") == named);
        if (unit is null)
        {
            if (named is null)
            {
                return ("kelvin, as no unit is said", 1, 0);
            }

            problems.Add($"line {value.Line()}: temperatureUnit \"{Printable.Clean(named, 40)}\" is not known; FileUnits must say it");
            return null;
        }

        var conversion = unit.Element(QifReader.Qif + "UnitConversion");
        if (conversion is null)
        {
            return (unit.Child("UnitName") ?? "kelvin", 1, 0);
        }

        if (Number(conversion.Child("Factor"), null) is > 0 and var factor && Number(conversion.Child("Offset"), "0") is { } offset)
        {
            return (unit.Child("UnitName") ?? "", factor, offset);
        }

        problems.Add($"line {unit.Line()}: the unit of temperature has no positive UnitConversion/Factor and number as Offset");
        return null;
    }

    private static double? Number(string? text, string? otherwise) =>
        double.TryParse(string.IsNullOrEmpty(text) ? otherwise : text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;
}
