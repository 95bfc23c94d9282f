using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>The figures of the report as SVG, for pages: every text in them is escaped.</summary>
public static class EvidencePictures
{
    /// <summary>Tolerance, deviation, prediction and rest on one ruler.</summary>
    public static string Ruler(FeatureEvidence one) => HtmlReport.Svg(Figures.Ruler(one), "Tolerance, deviation at 20 °C, predicted thermal effect, and what is left without it");

    /// <summary>Air, part, scale and coolant over the operation, gaps as gaps; null without samples.</summary>
    public static string? Temperatures(FeatureEvidence one, TimeZoneInfo zone) =>
        one is { Cut: { } cut } && Figures.Temperatures(cut, one.Inspected.Feature.Id, zone) is { } drawing ? HtmlReport.Svg(drawing, "Temperatures from before the cut to its end, gaps as gaps") : null;

    /// <summary>Measured against predicted of all parts, this one ringed; null with one part.</summary>
    public static string? Regression(GroupEvidence group, string serial) =>
        Figures.Regression(group, serial) is { } drawing ? HtmlReport.Svg(drawing, "Measured against predicted") : null;

    /// <summary>The pattern taken apart into translation, scale, rotation and rest.</summary>
    public static string Decomposition(PatternEvidence pattern) => HtmlReport.Svg(DecompositionFigure.Of(pattern), "The pattern taken apart into translation, scale, rotation and rest");

    /// <summary>Radial deviation of the holes in the order of cutting.</summary>
    public static string InOrder(PatternEvidence pattern) => HtmlReport.Svg(PatternFigures.InOrder(pattern), "Radial deviation of each hole in the order of cutting, measured and predicted");

    /// <summary>Mean deviation of each shift with limits; null with fewer than two shifts.</summary>
    public static string? Shifts(SamplingCase sampling) => ShiftChart.Of(sampling) is { } drawing ? HtmlReport.Svg(drawing, "Mean deviation of each shift with the limits of the chart") : null;
}
