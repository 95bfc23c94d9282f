using System.Globalization;
using System.Text;
using System.Xml.Linq;
using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>What holds for one set of measurements: the component, its part number, when it was inspected, how warm it was.</summary>
internal sealed record QifInspection(string? Serial, Part? Part, DateTimeOffset? End, double? PartCelsius)
{
    private static readonly string[] PartNames = ["ModelNumber", "PartNumber", "Name"];

    public static QifInspection Of(QifDocument document, XElement results, List<string> problems)
    {
        var trace = results.Element(QifReader.Qif + "InspectionTraceability")
            ?? results.Parent?.Parent?.Element(QifReader.Qif + "InspectionTraceability");
        var end = Time(document, trace?.Element(QifReader.Qif + "InspectionEnd") ?? trace?.Element(QifReader.Qif + "InspectionStart"), problems);
        var part = PartOf(document);
        if (part is null)
        {
            problems.Add($"line {results.Line()}: no part number of the plant file stands under Product/PartSet/Part (ModelNumber or Name); say part under fixed in the mapping of the device");
        }

        var component = document.FollowFirst(results, "ActualComponentIds");
        return new QifInspection(SerialOf(component), part, end, QifTemperatures.PartOf(document, component, problems));
    }

    /// <summary>The serial of an actual component, or null.</summary>
    public static string? SerialOf(XElement? component) => component.Child("SerialNumber") is { Length: > 0 } serial ? serial : null;

    /// <summary>A time of the document; one without an offset needs the zone of the mapping.</summary>
    public static DateTimeOffset? Time(QifDocument document, XElement? element, List<string> problems)
    {
        var text = element?.Value.Trim();
        if (string.IsNullOrEmpty(text))
        {
            return null;
        }

        if (Rfc3339.TryParse(Encoding.UTF8.GetBytes(text), out var exact))
        {
            return exact.ToUniversalTime();
        }

        string problem;
        if (DateTime.TryParseExact(text, "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF", CultureInfo.InvariantCulture, DateTimeStyles.None, out var clock))
        {
            if (LocalTimes.At(clock, document.Mapping?.Time ?? new TimeForm(), text, out problem) is { } time)
            {
                return time;
            }
        }
        else
        {
            problem = $"{element!.Name.LocalName} is \"{Printable.Clean(text, 40)}\"; a time such as 2026-01-10T08:00:00Z is allowed";
        }

        problems.Add($"line {element!.Line()}: {problem}");
        return null;
    }

    // Where QIF keeps the part number is a habit of each program: the names below are those seen, the mapping decides where there are others.
    private static Part? PartOf(QifDocument document)
    {
        if (document.Mapping?.Fixed.GetValueOrDefault("part") is { } stated)
        {
            return document.Cell.FindPart(stated);
        }

        var part = document.Root.Elements(QifReader.Qif + "Product").Elements(QifReader.Qif + "PartSet").Elements(QifReader.Qif + "Part").ToArray();
        return PartNames
            .SelectMany(name => part.Select(one => one.Child(name)).OfType<string>())
            .Select(document.Cell.FindPart).OfType<Part>().FirstOrDefault();
    }
}
