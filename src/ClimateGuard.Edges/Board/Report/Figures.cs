using System.Globalization;
using ClimateGuard.Evidence;

namespace ClimateGuard.Edges.Board;

/// <summary>The figures of a report.</summary>
internal static class Figures
{
    public const double PageWidth = 500;

    /// <summary>Tolerance, deviation, prediction and rest on one ruler centred on zero.</summary>
    public static Drawing Ruler(FeatureEvidence one)
    {
        const double height = 96;
        var tolerance = one.Inspected.Feature.ToleranceMillimetres * 1000;
        var (y, x, rest) = (one.AtReference.Worst.Micrometres ?? double.NaN, one.PredictedMicrometres, one.AtZeroEffect.RestMicrometres);
        var reach = new[] { tolerance * 1.15, Math.Abs(y) * 1.15, Math.Abs(x) * 1.15 }.Where(double.IsFinite).Max();
        double At(double um) => (PageWidth / 2) + (um / reach * (PageWidth / 2 - 8));
        var shapes = new List<Shape> { new LineShape(At(0), 8, At(0), 74, Ink.Grey, 0.8) };
        foreach (var limit in (double[])[-tolerance, tolerance])
        {
            shapes.Add(new LineShape(At(limit), 8, At(limit), 74, Ink.Limit, 1.2));
            shapes.Add(new TextShape(At(limit), 86, $"{ReportWords.Um(limit)} µm", Ink.Limit, Align.Middle, 7));
        }

        shapes.Add(new TextShape(At(0), 86, "0", Ink.Grey, Align.Middle, 7));
        Row(shapes, At, 14, y, one.AtReference.Worst.StandardUncertainty, Ink.Measured, "measured at 20 °C");
        Row(shapes, At, 34, x, one.Recomputed?.UMicrometres, Ink.Predicted, "predicted thermal effect");
        Row(shapes, At, 54, double.IsFinite(rest) && double.IsFinite(y) ? Math.CopySign(Math.Abs(rest), one.Pattern is null ? rest : y) : double.NaN, one.AtZeroEffect.UMicrometres, Ink.Grey, "rest without it");
        return new Drawing(PageWidth, height, shapes);
    }

    /// <summary>Air, part, scale and coolant over the operation, gaps as gaps.</summary>
    public static Drawing? Temperatures(CutExposure cut, string feature, TimeZoneInfo zone)
    {
        if (cut.Samples.Count < 2)
        {
            return null;
        }

        var origin = cut.Samples[0].Time;
        double Minutes(DateTimeOffset time) => (time - origin).TotalMinutes;
        (Func<ExposureSample, double> Of, Ink Ink, string Name)[] lines =
        [
            (sample => sample.AirCelsius, Ink.Grey, "air"), (sample => sample.PartCelsius, Ink.Measured, "part (model)"), (sample => sample.ScaleCelsius, Ink.Dark, "scale (model)"),
            (sample => sample.CoolantCelsius, Ink.Coolant, "coolant"),
        ];
        double[] all = [.. lines.SelectMany(line => cut.Samples.Select(line.Of)).Where(double.IsFinite)];
        if (all.Length == 0)
        {
            return null;
        }

        var frame = new PlotFrame(PageWidth, 190, (0, Minutes(cut.Samples[^1].Time)), (Math.Min(19.8, all.Min()), Math.Max(20.2, all.Max())));
        frame.Axes($"local time of the place ({zone.Id})", "°C", minutes => TimeZoneInfo.ConvertTime(origin.AddMinutes(minutes), zone).ToString("HH:mm", CultureInfo.InvariantCulture));
        foreach (var (line, i) in lines.Select((line, i) => (line, i)))
        {
            frame.Curve(Points(cut.Samples, line.Of, Minutes), line.Ink);
            frame.Shapes.Add(new LineShape(90 + (i * 95), 8, 106 + (i * 95), 8, line.Ink, 1.6));
            frame.Shapes.Add(new TextShape(110 + (i * 95), 11, line.Name, line.Ink, Align.Left, 7));
        }

        var window = cut.Step.Window(feature) ?? (cut.From, cut.To);
        frame.Upright(Minutes(window.Start), Ink.Limit, "cut begins");
        frame.Upright(Minutes(window.End ?? cut.To), Ink.Limit, "ends");
        return frame.Done();
    }

    /// <summary>Measured against predicted of the group, with the line of slope 1 and the fitted one; this part filled and ringed.</summary>
    public static Drawing? Regression(GroupEvidence group, string serial)
    {
        if (group.Points.Count < 2)
        {
            return null;
        }

        double[] x = [.. group.Points.Select(point => point.Predicted)], y = [.. group.Points.Select(point => point.Measured)];
        var (low, high) = (Math.Min(0, Math.Min(x.Min(), y.Min())), Math.Max(0, Math.Max(x.Max(), y.Max())));
        var frame = new PlotFrame(330, 250, (Math.Min(0, x.Min()), Math.Max(0, x.Max())), (low, high));
        frame.Axes("predicted, µm", "measured at 20 °C, µm");
        var (from, to) = frame.RangeX;
        frame.Curve([(Math.Max(from, low), Math.Max(from, low)), (Math.Min(to, high), Math.Min(to, high))], Ink.Grey, 0.8);
        if (group is { Slope: { } slope, Intercept: { } intercept })
        {
            double On(double at) => intercept.Value + (slope.Slope.Value * at);
            frame.Curve([(x.Min(), On(x.Min())), (x.Max(), On(x.Max()))], Ink.Predicted, 1.4);
        }

        foreach (var point in group.Points)
        {
            var (px, py) = (frame.X(point.Predicted), frame.Y(point.Measured));
            frame.Shapes.Add(new LineShape(px, frame.Y(point.Measured - point.UMeasured), px, frame.Y(point.Measured + point.UMeasured), Ink.Measured, 0.6));
            frame.Shapes.Add(new LineShape(frame.X(point.Predicted - point.UPredicted), py, frame.X(point.Predicted + point.UPredicted), py, Ink.Measured, 0.6));
            frame.Shapes.Add(new DotShape(px, py, 2.6, Ink.Measured));
            if (point.Serial == serial)
            {
                frame.Shapes.Add(new DotShape(px, py, 6, Ink.Limit, Filled: false));
            }
        }

        return frame.Done();
    }

    private static List<(double X, double Y)> Points(IReadOnlyList<ExposureSample> samples, Func<ExposureSample, double> of, Func<DateTimeOffset, double> minutes)
    {
        var points = new List<(double, double)>();
        for (var i = 0; i < samples.Count; i++)
        {
            // Samples come about each minute: more than five between two are a gap.
            if (i > 0 && (samples[i].Time - samples[i - 1].Time).TotalMinutes > 5)
            {
                points.Add((minutes(samples[i].Time), double.NaN));
            }

            points.Add((minutes(samples[i].Time), samples[i].Known ? of(samples[i]) : double.NaN));
        }

        return points;
    }

    private static void Row(List<Shape> shapes, Func<double, double> at, double top, double value, double? u, Ink ink, string name)
    {
        if (!double.IsFinite(value))
        {
            shapes.Add(new TextShape(at(0) + 4, top + 9, $"{name}: not known", ink));
            return;
        }

        var (left, right) = (Math.Min(at(0), at(value)), Math.Max(at(0), at(value)));
        shapes.Add(new BarShape(left, top, Math.Max(0.8, right - left), 11, ink));
        if (u is { } known && double.IsFinite(known))
        {
            shapes.Add(new LineShape(at(value - known), top + 5.5, at(value + known), top + 5.5, Ink.Dark, 0.8));
        }

        // The label stands on the side where the bar is not.
        shapes.Add(new TextShape(value >= 0 ? at(0) - 4 : at(0) + 4, top + 9, $"{name} {ReportWords.PlusMinus(value, u)} µm", ink, value >= 0 ? Align.Right : Align.Left));
    }
}
