using Plotly.Blazor;
using Plotly.Blazor.LayoutLib;
using Plotly.Blazor.Traces;
using Plotly.Blazor.Traces.ScatterLib;

namespace ClimateGuard.Worker.Pages.Machinist;

/// <summary>Draws the points of a machine with the chart component: temperatures above, effect and budget below, one time axis.</summary>
/// <remarks>Ground, letters and grid take their colours from site.css, so that they follow the light or dark theme of the browser.</remarks>
internal static class ChartLayout
{
    internal const string Clear = "rgba(0,0,0,0)";
    private const string Red = "#d2342e";

    public static Config Config { get; } = new()
    {
        Responsive = true,
        DisplayLogo = false,
        DisplayModeBar = Plotly.Blazor.ConfigLib.DisplayModeBarEnum.False,
        ScrollZoom = Plotly.Blazor.ConfigLib.ScrollZoomFlag.False,
    };

    public static List<ITrace> Traces(ChartPoints points, string featureName) =>
    [
        Temperature("Air", points.Times, points.Air, "#3f87c9", "solid", 1.5m),
        .. points.Coolant.Any(v => v is not null) ? [Temperature("Coolant", points.Times, points.Coolant, "#14917c", "dot", 2)] : Array.Empty<ITrace>(),
        Temperature("Scale", points.Times, points.Scale, "#8a63d2", "dashdot", 1.5m),
        Temperature("Part", points.Times, points.Part, "#d9641e", "solid", 3),
        Effect(featureName, points.Times, points.Effect, "solid"),
        Effect("expected over the coming cut", points.AheadTimes, points.Ahead, "dash"),
    ];

    public static Layout Layout(ChartPoints points) => new()
    {
        AutoSize = true,
        PaperBgColor = Clear,
        PlotBgColor = Clear,
        ShowLegend = true,
        HoverMode = HoverModeEnum.X,
        // The same value each time keeps a zoom while new points come in.
        UiRevision = "machine",
        Margin = new Margin { L = 58, R = 16, T = 12, B = 36 },
        Font = new Font { Size = 14 },
        Legend = [new Legend { Orientation = Plotly.Blazor.LayoutLib.LegendLib.OrientationEnum.H, Y = 1.02m, YAnchor = Plotly.Blazor.LayoutLib.LegendLib.YAnchorEnum.Bottom }],
        XAxis = [new XAxis { Type = Plotly.Blazor.LayoutLib.XAxisLib.TypeEnum.Date, TickFormat = "%H:%M", HoverFormat = "%a %H:%M", Anchor = "y2" }],
        YAxis =
        [
            new YAxis { Domain = [0.56m, 1m], Title = new Plotly.Blazor.LayoutLib.YAxisLib.Title { Text = "°C" }, ZeroLine = false },
            new YAxis { Domain = [0m, 0.46m], Title = new Plotly.Blazor.LayoutLib.YAxisLib.Title { Text = "µm" }, ZeroLine = true, Anchor = "x", Range = EffectRange(points) },
        ],
        Shapes = [.. Shapes(points)],
        Annotations = points.CutEnd is null
            ? [Note("now ", points.Now, Plotly.Blazor.LayoutLib.AnnotationLib.XAnchorEnum.Right)]
            : [
                Note("now ", points.Now, Plotly.Blazor.LayoutLib.AnnotationLib.XAnchorEnum.Right),
                Note(" coming cut", points.Now, Plotly.Blazor.LayoutLib.AnnotationLib.XAnchorEnum.Left),
            ],
    };

    private static Annotation Note(string text, string at, Plotly.Blazor.LayoutLib.AnnotationLib.XAnchorEnum anchor) => new()
    {
        Text = text, X = at, XRef = "x", Y = 0.51m, YRef = "paper", XAnchor = anchor, ShowArrow = false,
    };

    private static IEnumerable<Shape> Shapes(ChartPoints points)
    {
        if (points.CutEnd is { } end)
        {
            yield return Box(points.Now, end, "x", 0, 1, "paper", "rgba(128,128,128,0.18)");
        }

        yield return new Shape
        {
            Type = Plotly.Blazor.LayoutLib.ShapeLib.TypeEnum.Line, XRef = "x", YRef = "paper",
            X0 = points.Now, X1 = points.Now, Y0 = 0, Y1 = 1, Line = new Plotly.Blazor.LayoutLib.ShapeLib.Line { Color = "#808890", Width = 1.5m },
        };
        if (points.Budget is not { } budget)
        {
            yield break;
        }

        yield return Box(0, 1, "paper", -budget, budget, "y2", "rgba(46,140,87,0.16)");
        foreach (var mark in (double[])[-budget, budget])
        {
            yield return new Shape
            {
                Type = Plotly.Blazor.LayoutLib.ShapeLib.TypeEnum.Line, XRef = "paper", YRef = "y2", X0 = 0, X1 = 1, Y0 = mark, Y1 = mark,
                Line = new Plotly.Blazor.LayoutLib.ShapeLib.Line { Color = Red, Width = 2 },
            };
        }
    }

    internal static Shape Box(object x0, object x1, string xRef, object y0, object y1, string yRef, string fill) => new()
    {
        Type = Plotly.Blazor.LayoutLib.ShapeLib.TypeEnum.Rect,
        Layer = Plotly.Blazor.LayoutLib.ShapeLib.LayerEnum.Below,
        XRef = xRef, YRef = yRef, X0 = x0, X1 = x1, Y0 = y0, Y1 = y1, FillColor = fill,
        Line = new Plotly.Blazor.LayoutLib.ShapeLib.Line { Width = 0 },
    };

    /// <summary>A text of the plant file or of a catalogue; the chart reads a small markup, so its brackets are taken out.</summary>
    internal static string WithoutMarkup(string text) => text.Replace('<', ' ').Replace('>', ' ');

    // Both budget lines always show, with room around what was and what comes.
    private static List<object>? EffectRange(ChartPoints points)
    {
        var values = points.Effect.Concat(points.Ahead).OfType<double>().ToList();
        if (points.Budget is { } budget)
        {
            values.AddRange([-budget, budget]);
        }

        if (values.Count == 0)
        {
            return null;
        }

        var room = Math.Max(0.08 * (values.Max() - values.Min()), 0.1);
        return [values.Min() - room, values.Max() + room];
    }

    private static Scatter Temperature(
        string name, IReadOnlyList<string> times, IReadOnlyList<double?> values, string colour, string dash, decimal width) => new()
    {
        Name = name,
        Mode = ModeFlag.Lines,
        ConnectGaps = false,
        X = [.. times],
        Y = [.. values.Select(v => (object)v!)],
        HoverTemplate = "%{y:.2f} °C",
        Line = new Line { Color = colour, Dash = dash, Width = width },
    };

    private static Scatter Effect(string name, IReadOnlyList<string> times, IReadOnlyList<double?> values, string dash) => new()
    {
        Name = "Effect: " + WithoutMarkup(name),
        Mode = ModeFlag.Lines,
        ConnectGaps = false,
        X = [.. times],
        Y = [.. values.Select(v => (object)v!)],
        YAxis = "y2",
        HoverTemplate = "%{y:.1f} µm",
        Line = new Line { Color = "#d81b60", Dash = dash, Width = 3 },
    };
}
