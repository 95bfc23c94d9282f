using ClimateGuard.Enclosure;
using ClimateGuard.Worker.Pages.Machinist;
using ClimateGuard.Worker.Pages.Words;
using Plotly.Blazor;
using Plotly.Blazor.Traces;
using Plotly.Blazor.Traces.ScatterLib;

namespace ClimateGuard.Worker.Pages.Technician;

/// <summary>Draws what the air will be: a thin line that goes on, in the band that holds it nine times in ten.</summary>
internal static class AirChartAhead
{
    private const string Colour = "#3f87c9";
    private const string Shade = "rgba(63,135,201,0.18)";

    public static List<ITrace> Traces(IReadOnlyList<ZoneForecast> forecasts, CellTime time) =>
        [.. forecasts.Where(forecast => forecast.Points.Count > 0).SelectMany(forecast => (ITrace[])[Band(forecast, time), Line(forecast, time)])];

    private static Scatter Line(ZoneForecast forecast, CellTime time) => new()
    {
        Name = ChartLayout.WithoutMarkup($"zone {forecast.Zone}, expected"),
        Mode = ModeFlag.Lines,
        X = [AirTraces.Stamp(time, forecast.At), .. forecast.Points.Select(point => (object)At(forecast, point, time))],
        Y = [forecast.AirCelsius, .. forecast.Points.Select(point => (object)point.Celsius)],
        HoverTemplate = "%{y:.2f} °C",
        Line = new Line { Color = Colour, Dash = "dash", Width = 1.2m },
    };

    // Once around: out along the upper end, back along the lower one.
    private static Scatter Band(ZoneForecast forecast, CellTime time)
    {
        var known = forecast.Points.Where(point => double.IsFinite(point.LowCelsius + point.HighCelsius)).ToList();
        var back = known.AsEnumerable().Reverse().ToList();
        return new Scatter
        {
            Name = "9 in 10",
            Mode = ModeFlag.Lines,
            X = [AirTraces.Stamp(time, forecast.At), .. known.Concat(back).Select(point => (object)At(forecast, point, time))],
            Y = [forecast.AirCelsius, .. known.Select(point => (object)point.HighCelsius), .. back.Select(point => (object)point.LowCelsius)],
            Fill = FillEnum.ToSelf,
            FillColor = Shade,
            HoverInfo = HoverInfoFlag.Skip,
            ShowLegend = false,
            Line = new Line { Color = Colour, Width = 0 },
        };
    }

    private static string At(ZoneForecast forecast, ForecastPoint point, CellTime time) => AirTraces.Stamp(time, forecast.At + point.Ahead);
}
