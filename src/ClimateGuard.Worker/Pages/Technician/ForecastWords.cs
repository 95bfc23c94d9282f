using System.Globalization;
using ClimateGuard.Edges.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Worker.Pages.Technician;

/// <summary>What the air of a zone will be at one horizon.</summary>
/// <param name="Words">How warm, and within what.</param>
/// <param name="Because">Which rung says so, and how well it held.</param>
public sealed record ForecastLine(string Words, string Because);

/// <summary>Forecasts in words for the technician, words before numbers. Pure.</summary>
public static class ForecastWords
{
    /// <summary>From how many forecasts that came due it is said how many held.</summary>
    public const int LeastTold = 50;

    private const double NarrowKelvins = 0.3;

    /// <summary>The horizons that are told, each with how well it held; or one line that says why there is none.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="time">The clock of the cell.</param>
    /// <param name="now">Now.</param>
    public static IReadOnlyList<ForecastLine> Of(ZoneSnapshot zone, CellTime time, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(time);
        if (zone.Forecast is not { } forecast) return [new ForecastLine("What the air will be is not known yet.", "")];
        if (forecast.Points.Count == 0) return [new ForecastLine("What the air will be is not known.", string.Join(" ", forecast.Notes))];
        if (now - forecast.At > AirCourse.UsableFor)
            return [new ForecastLine("What the air will be is not known.", $"The last forecast is of {time.Near(forecast.At, now)} and too old.")];
        return
        [
            .. forecast.Points.Where(point => point.Ahead.Ticks % TimeSpan.TicksPerHour == 0)
                .Select(point => new ForecastLine(Line(point), $"{Rung(point.Model)} {Held(zone, forecast.Regime, point)}")),
        ];
    }

    /// <summary>Which rung says so, in a sentence.</summary>
    public static string Rung(AirModelKind model) => model switch
    {
        AirModelKind.Reversion => "It goes back to its usual level.",
        AirModelKind.DampedTrend => "It goes on as it went, less and less.",
        AirModelKind.Room => "So say the room, its control and what is known ahead.",
        AirModelKind.SameClock => "So it was at this hour on earlier days of that kind.",
        _ => "Nothing better is known than that it stays as it is.",
    };

    private static string Line(ForecastPoint point)
    {
        var ahead = point.Ahead.TotalHours switch { 1 => "In an hour", var hours => string.Create(CultureInfo.InvariantCulture, $"In {hours:0} hours") };
        var format = point.HighCelsius - point.LowCelsius < NarrowKelvins ? "0.00" : "0.0";
        string Say(double celsius) => celsius.ToString(format, CultureInfo.InvariantCulture);
        var range = double.IsFinite(point.LowCelsius + point.HighCelsius)
            ? $"9 in 10 within {Say(point.LowCelsius)} to {Say(point.HighCelsius)}" : "within what is not known";
        return $"{ahead} {Say(point.Celsius)} °C{(point.Model == AirModelKind.Persistence ? " as now" : "")}, {range}.";
    }

    private static string Held(ZoneSnapshot zone, Regime regime, ForecastPoint point)
    {
        var score = zone.Scores.FirstOrDefault(score => score.Regime == regime && score.Ahead == point.Ahead);
        if (score is null || score.IntervalsTold < LeastTold)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"How well that holds is not known: {score?.IntervalsTold ?? 0} such ranges have come due, {LeastTold} are needed.");
        }

        var better = score.Skill >= 0.005 ? string.Create(CultureInfo.InvariantCulture, $", {100 * score.Skill:0} % nearer than that it stays") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Of 90 in 100 it held {100 * score.Coverage:0} ({score.IntervalsTold} told {Kept(regime)}), {score.MaeKelvins:0.00} K off on average{better}.");
    }

    private static string Kept(Regime regime) => regime is Regime.InControl or Regime.AtCapacity or Regime.OutsideTheModel
        ? AirJson.WordOf(regime)
        : $"while {AirJson.WordOf(regime)}";
}
