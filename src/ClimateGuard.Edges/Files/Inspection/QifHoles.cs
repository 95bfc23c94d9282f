using System.Globalization;
using System.Xml.Linq;
using ClimateGuard.Plant;

namespace ClimateGuard.Edges.Files;

/// <summary>The vector of a hole: where its measured feature lies against the nominal one.</summary>
internal static class QifHoles
{
    // A nominal this near to a hole of the plant file is that hole.
    private const double SamePlaceMillimetres = 0.5;

    /// <summary>Measured minus nominal, in µm, with the number of the hole in the plant file where the nominal names one.</summary>
    public readonly record struct Vector(double Dx, double Dy, int? Hole);

    public static Vector? VectorOf(QifDocument document, XElement measured, Feature feature, List<string> problems)
    {
        if (feature is not PositionFeature pattern || document.FollowFirst(measured, "FeatureMeasurementIds") is not { } found)
        {
            return null;
        }

        var nominal = document.Follow(document.Follow(found, "FeatureItemId"), "FeatureNominalId");
        if (Place(document, found, problems) is not { } at || Place(document, nominal, problems) is not { } meant)
        {
            return null;
        }

        return new Vector(at.X - meant.X, at.Y - meant.Y, HoleAt(pattern, meant.X / 1000, meant.Y / 1000));
    }

    private static int? HoleAt(PositionFeature pattern, double x, double y)
    {
        for (var i = 0; i < pattern.Points.Count; i++)
        {
            if (double.Hypot(pattern.Points[i].X - x, pattern.Points[i].Y - y) <= SamePlaceMillimetres)
            {
                return i + 1;
            }
        }

        return null;
    }

    /// <summary>The first two coordinates of a circle or cylinder in µm, in the frame of the document.</summary>
    private static (double X, double Y)? Place(QifDocument document, XElement? feature, List<string> problems)
    {
        var point = feature?.Element(QifReader.Qif + "Location") ?? feature?.Element(QifReader.Qif + "Center")
            ?? feature?.Element(QifReader.Qif + "Axis")?.Element(QifReader.Qif + "AxisPoint");
        if (point is null)
        {
            return null;
        }

        var texts = point.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (texts.Length is 2 or 3 && Number(texts[0]) is { } x && Number(texts[1]) is { } y)
        {
            return document.Units.Factor(point, problems) is { } factor ? (x * factor, y * factor) : null;
        }

        problems.Add($"line {point.Line()}: {point.Name.LocalName} holds {texts.Length} values; two or three decimal numbers are allowed");
        return null;
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;
}
