using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>The figures of a hole pattern: where each hole went, and hole by hole in the order of cutting.</summary>
internal static class PatternFigures
{
    /// <summary>Each hole at its place with measured and predicted deviation, magnified.</summary>
    public static Drawing Vectors(PatternEvidence pattern)
    {
        const double size = 300;
        double[] xs = [.. pattern.Measured.Select(one => one.Deviation.X)], ys = [.. pattern.Measured.Select(one => one.Deviation.Y)];
        var reach = Math.Max(1, Math.Max(Math.Max(xs.Max(), -xs.Min()), Math.Max(ys.Max(), -ys.Min())));
        var longest = pattern.Measured.Select(one => double.Hypot(one.Deviation.Dx, one.Deviation.Dy)).Concat(pattern.Predicted.Select(one => double.Hypot(one.Dx, one.Dy))).Max();
        var scale = (size / 2 - 62) / reach;
        var magnified = longest > 0 ? 42 / longest : 0;
        double X(double mm) => (size / 2) + (mm * scale);
        double Y(double mm) => (size / 2) - (mm * scale);
        var shapes = new List<Shape> { new LineShape(X(0) - 5, Y(0), X(0) + 5, Y(0), Ink.Grey), new LineShape(X(0), Y(0) - 5, X(0), Y(0) + 5, Ink.Grey) };
        for (var i = 0; i < pattern.Measured.Count; i++)
        {
            var (hole, predicted) = (pattern.Measured[i], pattern.Predicted[i]);
            var (x, y) = (X(hole.Deviation.X), Y(hole.Deviation.Y));
            shapes.Add(new DotShape(x, y, 2, Ink.Grey, Filled: false));
            shapes.Add(new LineShape(x, y, x + (predicted.Dx * magnified), y - (predicted.Dy * magnified), Ink.Predicted, 3));
            shapes.Add(new LineShape(x, y, x + (hole.Deviation.Dx * magnified), y - (hole.Deviation.Dy * magnified), Ink.Measured, 1.2));
            shapes.Add(new DotShape(x + (hole.Deviation.Dx * magnified), y - (hole.Deviation.Dy * magnified), 1.6, Ink.Measured));
        }

        var step = PlotFrame.Ticks(0, Math.Max(longest, 1e-6), 2)[1];
        shapes.Add(new LineShape(12, size - 12, 12 + (step * magnified), size - 12, Ink.Dark, 1.4));
        shapes.Add(new TextShape(16 + (step * magnified), size - 9, FormattableString.Invariant($"{step:0.##} µm"), Ink.Dark, Align.Left, 7));
        shapes.Add(new TextShape(12, 12, "thin with a dot: measured", Ink.Measured, Align.Left, 7));
        shapes.Add(new TextShape(12, 22, "thick: predicted", Ink.Predicted, Align.Left, 7));
        return new Drawing(size, size, shapes);
    }

    /// <summary>Radial deviation of each hole in the order of cutting, measured dots on the predicted line.</summary>
    public static Drawing InOrder(PatternEvidence pattern)
    {
        (int Hole, double Measured, double Predicted)[] holes =
        [
            .. pattern.Measured.Select((one, i) => (one.Hole, Radial(one.Deviation), Radial(pattern.Predicted[i]))).OrderBy(one => pattern.CutAt[IndexOf(pattern, one.Hole)]).ThenBy(one => one.Hole),
        ];
        var (low, high) = (holes.Min(hole => Math.Min(hole.Measured, hole.Predicted)), holes.Max(hole => Math.Max(hole.Measured, hole.Predicted)));
        var frame = new PlotFrame(Figures.PageWidth, 170, (1, Math.Max(2, holes.Length)), (Math.Min(0, low), Math.Max(0, high)));
        frame.Axes("hole in the order of cutting", "radial deviation, µm", xTicks: [.. Enumerable.Range(1, holes.Length).Where(i => holes.Length <= 30 || i % 5 == 0).Select(i => (double)i)], xText: i => FormattableString.Invariant($"{holes[(int)i - 1].Hole}"));
        frame.Curve([.. holes.Select((hole, i) => (i + 1.0, hole.Predicted))], Ink.Predicted, 1.6);
        foreach (var (hole, i) in holes.Select((hole, i) => (hole, i)))
        {
            frame.Shapes.Add(new DotShape(frame.X(i + 1), frame.Y(hole.Measured), 2.4, Ink.Measured));
        }

        return frame.Done();
    }

    private static int IndexOf(PatternEvidence pattern, int hole)
    {
        for (var i = 0; i < pattern.Measured.Count; i++)
        {
            if (pattern.Measured[i].Hole == hole)
            {
                return i;
            }
        }

        return 0;
    }

    private static double Radial(HoleDeviation hole)
    {
        var radius = double.Hypot(hole.X, hole.Y);
        return radius > 0 ? ((hole.Dx * hole.X) + (hole.Dy * hole.Y)) / radius : 0;
    }
}
