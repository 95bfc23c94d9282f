using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Machinist;
using ClimateGuard.Worker.Pages.Words;
using Plotly.Blazor;
using Plotly.Blazor.LayoutLib;
using Plotly.Blazor.Traces;
using Plotly.Blazor.Traces.ScatterLib;

namespace ClimateGuard.Worker.Pages.Technician;

/// <summary>Draws the traces of an air handler: temperatures above, commands in the middle, pressure or air flow below, with what happened laid over.</summary>
internal static class AirChartLayout
{
    private static readonly string[] AirColours = ["#3f87c9", "#2c6fa8", "#5aa0dd", "#7f9fbf"];

    public static Config Config => ChartLayout.Config;

    public static List<ITrace> Traces(AirTraces traces)
    {
        var air = 0;
        return [.. traces.Traces.Select(trace => (ITrace)Line(trace, trace.Role == "air" ? air++ : 0))];
    }

    public static Layout Layout(AirTraces traces, IReadOnlyList<FindingCase> findings, CellTime time, DateTimeOffset from)
    {
        var third = traces.Traces.Any(t => Axis(t.Role) == "y3");
        var shown = findings.Where(f => (f.Onset ?? f.OpenedAt) > from).ToList();
        return new Layout
        {
            AutoSize = true,
            PaperBgColor = ChartLayout.Clear,
            PlotBgColor = ChartLayout.Clear,
            ShowLegend = true,
            HoverMode = HoverModeEnum.X,
            UiRevision = "air",
            Margin = new Margin { L = 58, R = 16, T = 12, B = 36 },
            Font = new Font { Size = 14 },
            Legend = [new Legend { Orientation = Plotly.Blazor.LayoutLib.LegendLib.OrientationEnum.H, Y = 1.04m, YAnchor = Plotly.Blazor.LayoutLib.LegendLib.YAnchorEnum.Bottom }],
            XAxis = [new XAxis { Type = Plotly.Blazor.LayoutLib.XAxisLib.TypeEnum.Date, TickFormat = "%a %H:%M", HoverFormat = "%a %H:%M", Anchor = third ? "y3" : "y2" }],
            YAxis =
            [
                Named("°C", third ? 0.52m : 0.45m, 1m),
                Named("%", third ? 0.26m : 0m, third ? 0.46m : 0.39m),
                .. third ? [Named(traces.Traces.Any(t => t.Role == "filterPressure") ? "Pa" : "flow", 0m, 0.2m)] : Array.Empty<YAxis>(),
            ],
            Shapes = [.. traces.Doors.Select(door => Box(door.From, door.To, "rgba(255,198,26,0.35)")), .. shown.SelectMany(f => Marks(f, time))],
            Annotations = [.. shown.Select((f, i) => Note(f, time, i))],
        };
    }

    private static YAxis Named(string unit, decimal low, decimal high) => new()
    {
        Domain = [low, high], Title = new Plotly.Blazor.LayoutLib.YAxisLib.Title { Text = unit }, ZeroLine = false,
    };

    private static IEnumerable<Shape> Marks(FindingCase finding, CellTime time)
    {
        var begin = AirTraces.Stamp(time, finding.Onset ?? finding.OpenedAt);
        if (finding.ClosedAt is { } closed) yield return Box(begin, AirTraces.Stamp(time, closed), "rgba(128,128,128,0.14)");
        yield return new Shape
        {
            Type = Plotly.Blazor.LayoutLib.ShapeLib.TypeEnum.Line, XRef = "x", YRef = "paper", X0 = begin, X1 = begin, Y0 = 0, Y1 = 1,
            Line = new Plotly.Blazor.LayoutLib.ShapeLib.Line { Color = "#b3161b", Width = 2 },
        };
    }

    private static Annotation Note(FindingCase finding, CellTime time, int place) => new()
    {
        Text = " " + ChartLayout.WithoutMarkup(finding.Words),
        X = AirTraces.Stamp(time, finding.Onset ?? finding.OpenedAt), XRef = "x", Y = 0.99m - (0.05m * (place % 6)), YRef = "paper",
        XAnchor = Plotly.Blazor.LayoutLib.AnnotationLib.XAnchorEnum.Left, ShowArrow = false,
    };

    private static Shape Box(string from, string to, string fill) => ChartLayout.Box(from, to, "x", 0, 1, "paper", fill);

    private static string Axis(string role) => role switch
    {
        "coolingCommand" or "heatingCommand" or "fanSpeed" => "y2",
        "filterPressure" or "airflow" => "y3",
        _ => "y",
    };

    private static Scatter Line(AirTrace trace, int place)
    {
        var axis = Axis(trace.Role);
        var (colour, dash, width) = trace.Role switch
        {
            "air" => (AirColours[place % AirColours.Length], "solid", 1.2m),
            "supply" => ("#14917c", "solid", 2m),
            "return" => ("#8a63d2", "dashdot", 1.5m),
            "coolingSetpoint" => ("#808890", "dot", 1.5m),
            "coolingCommand" => ("#14917c", "solid", 1.5m),
            "heatingCommand" => ("#d9641e", "dash", 1.5m),
            "fanSpeed" => ("#808890", "dot", 1.5m),
            _ => ("#d81b60", "solid", 1.5m),
        };
        return new Scatter
        {
            Name = ChartLayout.WithoutMarkup(trace.Name),
            Mode = ModeFlag.Lines,
            ConnectGaps = false,
            X = [.. trace.Times],
            Y = [.. trace.Values.Select(v => (object)(axis == "y2" ? 100 * v : v)!)],
            YAxis = axis,
            HoverTemplate = axis switch { "y" => "%{y:.2f} °C", "y2" => "%{y:.0f} %", _ => "%{y:.0f}" },
            Line = new Line { Color = colour, Dash = dash, Width = width },
        };
    }
}
