using System.Xml;
using System.Xml.Linq;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>Reads inspection results from QIF 3.0 (ISO 23952).</summary>
/// <remarks>
/// No document type, no entities, nothing fetched, bounded size. A measurement is followed to its item, nominal and definition by their ids. Units
/// come from <c>FileUnits</c> and the attribute <c>linearUnit</c> and are never assumed. The temperature of the part is that of the environments of its
/// component, else that of the mapping, as is that of the device. A characteristic that the plant file does not know is listed
/// and left out; one that it knows and that cannot be read refuses the whole file.
/// </remarks>
internal static class QifReader
{
    /// <summary>The namespace of QIF 3.0.</summary>
    public static readonly XNamespace Qif = "http://qifstandards.org/xsd/qif3";

    private const int MostNotes = 200;
    private const string NoTemperature = "no ObjectTemperature of the part stands in the file: say partC and deviceC under fixed in the mapping of the device; without them what its "
        + "mode leaves of them cannot be taken out";

    /// <summary>Reads a document.</summary>
    public static InspectionImport Read(ReadOnlyMemory<byte> bytes, Cell cell, DeviceMapping? mapping)
    {
        try
        {
            using var stream = new MemoryStream(bytes.ToArray(), writable: false);
            using var reader = XmlReader.Create(stream, new XmlReaderSettings
            {
                DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersFromEntities = 0, MaxCharactersInDocument = InspectionFile.MostBytes,
                IgnoreComments = true, IgnoreProcessingInstructions = true,
            });
            return Read(XDocument.Load(reader, LoadOptions.SetLineInfo), cell, mapping);
        }
        catch (XmlException broken)
        {
            var what = broken.Message.Contains("DTD", StringComparison.Ordinal) ? "a document type is not allowed" : Printable.Clean(broken.Message, 160).TrimEnd('.');
            return InspectionImport.Refused($"line {Math.Max(1, broken.LineNumber)}: {what}", "qif");
        }
    }

    private static InspectionImport Read(XDocument document, Cell cell, DeviceMapping? mapping)
    {
        if (document.Root is not { } root || root.Name != Qif + "QIFDocument")
        {
            return InspectionImport.Refused($"line 1: the root is {Printable.Clean(document.Root?.Name.ToString() ?? "", 80)}; QIFDocument of {Qif} is needed", "qif");
        }

        if (root.Attribute("versionQIF")?.Value is not { } version || !version.StartsWith("3.", StringComparison.Ordinal))
        {
            return InspectionImport.Refused($"line {root.Line()}: versionQIF is \"{Printable.Clean(root.Attribute("versionQIF")?.Value ?? "", 20)}\"; 3.0.0 is read", "qif");
        }

        var problems = new List<string>();
        var units = QifUnits.Of(root, problems);
        if (units is null)
        {
            return new InspectionImport([], problems) { Form = "qif" };
        }

        return Measurements(new QifDocument(root, units, cell, mapping), problems);
    }

    private static InspectionImport Measurements(QifDocument document, List<string> problems)
    {
        var values = new List<InspectionValue>();
        var notes = new List<string>();
        var blank = 0;
        foreach (var results in document.Root.Elements(Qif + "Results").Elements(Qif + "MeasurementResultsSet").Elements(Qif + "MeasurementResults"))
        {
            var inspection = QifInspection.Of(document, results, problems);
            foreach (var measured in results.Elements(Qif + "MeasuredCharacteristics").Elements(Qif + "CharacteristicMeasurements").Elements())
            {
                if (problems.Count >= InspectionImport.MostProblems)
                {
                    break;
                }

                var read = QifCharacteristic.Read(document, inspection, measured, problems);
                if (read.Value is { } value)
                {
                    values.Add(value);
                }
                else if (read.LeftOut is { } why)
                {
                    notes.Add($"line {measured.Line()}: {why}");
                }
                else
                {
                    blank++;
                }
            }
        }

        return Import(document, values, notes, blank, problems);
    }

    private static InspectionImport Import(QifDocument document, List<InspectionValue> values, List<string> notes, int blank, List<string> problems)
    {
        if (problems.Count == 0 && values.Count == 0)
        {
            problems.Add($"line {document.Root.Line()}: no characteristic of the file is known to the plant file{(notes.Count > 0 ? $", such as: {notes[0]}" : "")}; name them under features in the mapping of the device");
        }

        return problems.Count > 0 ? new InspectionImport([], problems) { Form = "qif" } : new InspectionImport(values, [])
        {
            Form = "qif",
            NotMeasured = blank,
            Notes = [.. notes.Take(MostNotes), .. notes.Count > MostNotes ? [$"and {notes.Count - MostNotes} more left out"] : Array.Empty<string>(),
                .. values.Exists(value => value.PartCelsius is null) ? [NoTemperature] : Array.Empty<string>(),
                .. blank > 0 ? [$"{blank} characteristics without a value: not measured, passed over"] : Array.Empty<string>()],
        };
    }

    /// <summary>The line an element stands in.</summary>
    public static int Line(this XObject element) => element is IXmlLineInfo { LineNumber: > 0 } info ? info.LineNumber : 0;

    /// <summary>The text of a child, trimmed; null when there is none.</summary>
    public static string? Child(this XElement? element, string name) => element?.Element(Qif + name)?.Value.Trim();
}
