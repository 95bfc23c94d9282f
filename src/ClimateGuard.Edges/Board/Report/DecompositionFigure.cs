using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>A hole pattern taken apart: measured is translation plus scale plus rotation plus rest, all drawn with one magnification.</summary>
internal static class DecompositionFigure
{
    private const double Cell = 166;
    private const double Row = 190;
    private const double LongestArrow = 30;

    public static Drawing Of(PatternEvidence pattern)
    {
        HoleDeviation[] measured = [.. pattern.Measured.Select(one => one.Deviation)];
        var fit = pattern.Fit;
        var (centreX, centreY) = (measured.Average(hole => hole.X), measured.Average(hole => hole.Y));
        HoleDeviation[] translation = [.. measured.Select(hole => hole with { Dx = fit.TranslationX.Value, Dy = fit.TranslationY.Value })];
        HoleDeviation[] scale = [.. measured.Select(hole => Turned(hole, fit.ScaleMicrometresPerMetre.Value, 0))];
        HoleDeviation[] rotation = [.. measured.Select(hole => Turned(hole, 0, fit.RotationMicroradians.Value))];
        (string Name, string Numbers, IReadOnlyList<HoleDeviation> Holes, Ink Ink)[] panels =
        [
            ("measured at 20 °C", $"{measured.Length} holes", measured, Ink.Measured),
            ("predicted", "thermal effect", pattern.Predicted, Ink.Predicted),
            ("translation", $"{ReportWords.PlusMinus(fit.TranslationX)}, {ReportWords.PlusMinus(fit.TranslationY)} µm", translation, Ink.Dark),
            ("scale", $"{ReportWords.PlusMinus(fit.ScaleMicrometresPerMetre)} µm/m", scale, Ink.Dark),
            ("rotation", $"{ReportWords.PlusMinus(fit.RotationMicroradians)} µrad", rotation, Ink.Dark),
            ("rest", $"{ReportWords.Um(fit.ResidualRms)} µm rms", fit.Residuals, Ink.Limit),
        ];
        var longest = panels.SelectMany(panel => panel.Holes).Select(hole => double.Hypot(hole.Dx, hole.Dy)).Where(double.IsFinite).Append(1e-6).Max();
        var shapes = new List<Shape>();
        foreach (var (panel, i) in panels.Select((panel, i) => (panel, i)))
        {
            Panel(shapes, panel.Holes, panel.Ink, i % 3 * Cell, i / 3 * Row, LongestArrow / longest);
            shapes.Add(new TextShape((i % 3 * Cell) + (Cell / 2), (i / 3 * Row) + 10, panel.Name, Ink.Dark, Align.Middle, 9));
            shapes.Add(new TextShape((i % 3 * Cell) + (Cell / 2), (i / 3 * Row) + Row - 8, panel.Numbers, Ink.Grey, Align.Middle, 8));
        }

        var step = PlotFrame.Ticks(0, longest, 2) is [_, var first, ..] ? first : longest;
        shapes.Add(new LineShape(4, 2 * Row + 8, 4 + (step * LongestArrow / longest), 2 * Row + 8, Ink.Dark, 1.4));
        shapes.Add(new TextShape(8 + (step * LongestArrow / longest), 2 * Row + 11, FormattableString.Invariant($"{step:0.##} µm, in each picture"), Ink.Dark, Align.Left, 8));
        return new Drawing(3 * Cell, 2 * Row + 16, shapes);

        HoleDeviation Turned(HoleDeviation hole, double scaled, double turned)
        {
            double x = (hole.X - centreX) / 1000, y = (hole.Y - centreY) / 1000;
            return hole with { Dx = (scaled * x) - (turned * y), Dy = (scaled * y) + (turned * x) };
        }
    }

    private static void Panel(List<Shape> shapes, IReadOnlyList<HoleDeviation> holes, Ink ink, double left, double top, double magnified)
    {
        var (lowX, highX, lowY, highY) = (holes.Min(hole => hole.X), holes.Max(hole => hole.X), holes.Min(hole => hole.Y), holes.Max(hole => hole.Y));
        var scale = ((Cell / 2) - LongestArrow - 8) / Math.Max(1, Math.Max(highX - lowX, highY - lowY) / 2);
        foreach (var hole in holes)
        {
            double x = left + (Cell / 2) + ((hole.X - ((lowX + highX) / 2)) * scale), y = top + (Row / 2) - 2 - ((hole.Y - ((lowY + highY) / 2)) * scale);
            shapes.Add(new DotShape(x, y, 2.2, Ink.Grey, Filled: false));
            if (!double.IsFinite(hole.Dx) || !double.IsFinite(hole.Dy))
            {
                continue;
            }

            shapes.Add(new LineShape(x, y, x + (hole.Dx * magnified), y - (hole.Dy * magnified), ink, 1.4));
            shapes.Add(new DotShape(x + (hole.Dx * magnified), y - (hole.Dy * magnified), 1.4, ink));
        }
    }
}
