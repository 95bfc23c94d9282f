using System.Globalization;

namespace ClimateGuard.Edges.Board;

/// <summary>A plot's axes: from values to points of a drawing, with ticks at round values.</summary>
internal sealed class PlotFrame
{
    private const double Left = 46;
    private const double Right = 12;
    private const double Top = 12;
    private const double Bottom = 30;
    private readonly double lowX;
    private readonly double highX;
    private readonly double lowY;
    private readonly double highY;

    public PlotFrame(double width, double height, (double Low, double High) x, (double Low, double High) y)
    {
        (Width, Height) = (width, height);
        (lowX, highX) = Padded(x);
        (lowY, highY) = Padded(y);
    }

    public double Width { get; }

    public double Height { get; }

    public List<Shape> Shapes { get; } = [];

    public (double Low, double High) RangeX => (lowX, highX);

    public double X(double value) => Left + ((value - lowX) / (highX - lowX) * (Width - Left - Right));

    public double Y(double value) => Height - Bottom - ((value - lowY) / (highY - lowY) * (Height - Top - Bottom));

    public void Axes(string xLabel, string yLabel, Func<double, string>? xText = null, IReadOnlyList<double>? xTicks = null)
    {
        foreach (var tick in Ticks(lowY, highY, 5))
        {
            Shapes.Add(new LineShape(Left, Y(tick), Width - Right, Y(tick), Ink.Light, 0.6));
            Shapes.Add(new TextShape(Left - 4, Y(tick) + 3, Text(tick), Ink.Grey, Align.Right, 7));
        }

        foreach (var tick in xTicks ?? Ticks(lowX, highX, 6))
        {
            Shapes.Add(new LineShape(X(tick), Height - Bottom, X(tick), Height - Bottom + 3, Ink.Grey, 0.6));
            Shapes.Add(new TextShape(X(tick), Height - Bottom + 12, (xText ?? Text)(tick), Ink.Grey, Align.Middle, 7));
        }

        Shapes.Add(new LineShape(Left, Top, Left, Height - Bottom, Ink.Grey, 0.8));
        Shapes.Add(new LineShape(Left, Height - Bottom, Width - Right, Height - Bottom, Ink.Grey, 0.8));
        Shapes.Add(new TextShape((Left + Width - Right) / 2, Height - 6, xLabel, Ink.Dark, Align.Middle, 8));
        Shapes.Add(new TextShape(Left + 4, Top - 2, yLabel, Ink.Dark, Align.Left, 8));
    }

    /// <summary>A line through points; a point that is not a number breaks it, so that a gap stays a gap.</summary>
    public void Curve(IReadOnlyList<(double X, double Y)> points, Ink ink, double thickness = 1.2)
    {
        for (var i = 1; i < points.Count; i++)
        {
            var (a, b) = (points[i - 1], points[i]);
            if (double.IsFinite(a.Y) && double.IsFinite(b.Y))
            {
                Shapes.Add(new LineShape(X(a.X), Y(a.Y), X(b.X), Y(b.Y), ink, thickness));
            }
        }
    }

    public void Upright(double value, Ink ink, string label)
    {
        Shapes.Add(new LineShape(X(value), Top, X(value), Height - Bottom, ink, 0.8));
        Shapes.Add(new TextShape(X(value) - 3, Top + 22, label, ink, Align.Right, 7));
    }

    public Drawing Done() => new(Width, Height, Shapes);

    /// <summary>Round values between two ends.</summary>
    public static IReadOnlyList<double> Ticks(double low, double high, int about)
    {
        var step = Math.Pow(10, Math.Floor(Math.Log10((high - low) / about)));
        var count = (high - low) / step / about;
        step *= count > 5 ? 10 : count > 2 ? 5 : count > 1 ? 2 : 1;
        var ticks = new List<double>();
        for (var i = Math.Ceiling(low / step); i * step <= high + (1e-9 * step); i++)
        {
            ticks.Add(i * step);
        }

        return ticks;
    }

    private static (double, double) Padded((double Low, double High) range)
    {
        var width = range.High - range.Low;
        var pad = width > 0 ? 0.06 * width : Math.Max(1e-6, Math.Abs(range.Low) * 0.1);
        return (range.Low - pad, range.High + pad);
    }

    private static string Text(double value) => (Math.Round(value, 6) + 0.0).ToString("0.###", CultureInfo.InvariantCulture);
}
