using System.Xml.Linq;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>A QIF document with its elements by id.</summary>
internal sealed class QifDocument
{
    private readonly Dictionary<string, XElement> byId = new(StringComparer.Ordinal);

    public QifDocument(XElement root, QifUnits units, Cell cell, DeviceMapping? mapping)
    {
        (Root, Units, Cell, Mapping) = (root, units, cell, mapping);
        foreach (var element in root.Descendants())
        {
            if (element.Attribute("id")?.Value is { } id)
            {
                byId.TryAdd(id, element);
            }
        }
    }

    public XElement Root { get; }

    public QifUnits Units { get; }

    public Cell Cell { get; }

    public DeviceMapping? Mapping { get; }

    /// <summary>The element that a reference names, or null.</summary>
    public XElement? Find(string? id) => id is not null && byId.TryGetValue(id, out var element) ? element : null;

    /// <summary>The element that a child of this one names, or null.</summary>
    public XElement? Follow(XElement? from, string reference) => Find(from.Child(reference));

    /// <summary>The first element of a list of ids under this one, or null.</summary>
    public XElement? FollowFirst(XElement? from, string list) =>
        Find(from?.Element(QifReader.Qif + list)?.Elements(QifReader.Qif + "Id").FirstOrDefault()?.Value.Trim());
}
