using System.Globalization;
using System.Xml.Linq;
using ClimateGuard.Edges.Json;

namespace ClimateGuard.Edges.Files;

/// <summary>The units of length of a QIF document: the primary one and the others that values may name.</summary>
internal sealed class QifUnits
{
    private const double MicrometresPerMetre = 1e6;
    private readonly Dictionary<string, double> named = new(StringComparer.Ordinal);
    private double primary;

    private QifUnits()
    {
    }

    /// <summary>Reads <c>FileUnits</c>; null when the primary unit of length is missing or cannot be read, with the problem.</summary>
    public static QifUnits? Of(XElement root, List<string> problems)
    {
        var units = new QifUnits();
        var stated = root.Element(QifReader.Qif + "FileUnits");
        var first = stated?.Element(QifReader.Qif + "PrimaryUnits")?.Element(QifReader.Qif + "LinearUnit");
        if (first is null)
        {
            problems.Add($"line {(stated ?? root).Line()}: FileUnits/PrimaryUnits/LinearUnit is missing; a unit is never assumed");
            return null;
        }

        foreach (var unit in stated!.Descendants(QifReader.Qif + "LinearUnit"))
        {
            if (units.Add(unit, problems) is { } factor && unit == first)
            {
                units.primary = factor;
            }
        }

        return problems.Count == 0 ? units : null;
    }

    /// <summary>A length of the document in µm; null when it is blank, or with a problem when it cannot be read.</summary>
    public double? Micrometres(XElement? value, List<string> problems)
    {
        var text = value?.Value.Trim();
        if (value is null || string.IsNullOrEmpty(text))
        {
            return null;
        }

        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
        {
            problems.Add($"line {value.Line()}: {value.Name.LocalName} is \"{Printable.Clean(text, 40)}\"; a decimal number is allowed");
            return null;
        }

        return Factor(value, problems) is { } factor ? number * factor : null;
    }

    /// <summary>µm per unit of an element that may name its unit.</summary>
    public double? Factor(XElement value, List<string> problems)
    {
        if (value.Attribute("linearUnit")?.Value is not { } name)
        {
            return primary;
        }

        if (named.TryGetValue(name, out var factor))
        {
            return factor;
        }

        problems.Add($"line {value.Line()}: linearUnit \"{Printable.Clean(name, 40)}\" is not known; FileUnits has {string.Join(", ", named.Keys.Select(key => Printable.Clean(key, 40)))}");
        return null;
    }

    private double? Add(XElement unit, List<string> problems)
    {
        // SI unit metre, times the factor of the conversion; its name may be left out where there is a conversion (Units.xsd).
        var name = unit.Child("UnitName") ?? unit.Child("SIUnitName") ?? "";
        var conversion = unit.Element(QifReader.Qif + "UnitConversion");
        var factor = 1.0;
        var good = (unit.Child("SIUnitName") is "meter" or "metre" || (unit.Child("SIUnitName") is null && conversion is not null))
            && (conversion is null || (double.TryParse(conversion.Child("Factor"), NumberStyles.Float, CultureInfo.InvariantCulture, out factor) && factor > 0 && double.IsFinite(factor)))
            && conversion.Child("Offset") is null or "0";
        if (!good)
        {
            problems.Add($"line {unit.Line()}: the unit of length \"{Printable.Clean(name, 40)}\" is not known; SIUnitName meter with a positive UnitConversion/Factor is read");
            return null;
        }

        named[name] = factor * MicrometresPerMetre;
        return factor * MicrometresPerMetre;
    }
}
