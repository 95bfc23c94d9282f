using ClimateGuard.Enclosure;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>How the air of a zone is expected to move from a moment on, as far as a forecast is worth more than that it stays, and how far it may miss. Immutable.</summary>
public sealed class AirCourse
{
    private const int Minutes = 240;
    private const double SigmasOf90Percent = 1.645;

    /// <summary>How long a forecast may be used: one comes every five minutes, and one that no other followed has lost its begin.</summary>
    public static readonly TimeSpan UsableFor = TimeSpan.FromMinutes(15);

    // Nearer, the noise of the sensors is most of the error; farther, cuts and their margins seldom reach.
    private static readonly TimeSpan NearestOfSpread = TimeSpan.FromMinutes(30);
    private static readonly TimeSpan FarthestOfSpread = TimeSpan.FromHours(2);

    private readonly DateTimeOffset at;
    private readonly double[] moves;
    private readonly double spreadKelvins;

    private AirCourse(DateTimeOffset at, double[] moves, double spreadKelvins) => (this.at, this.moves, this.spreadKelvins) = (at, moves, spreadKelvins);

    /// <summary>The course of a forecast; null when it has nothing to say.</summary>
    /// <param name="forecast">The forecast of the zone.</param>
    public static AirCourse? Of(ZoneForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        if (forecast.Points.Count == 0) return null;
        return new AirCourse(forecast.At, forecast.Points.Any(IsBetter) ? Moves(forecast) : [], Spread(forecast.Points, new ThermalNoise()));
    }

    /// <summary>The air expected at a machine by minute, °C: as it is there now, moved as the zone is expected to move; empty when it is expected to stay or the course is too old.</summary>
    /// <param name="now">Now.</param>
    /// <param name="airCelsius">The air at the machine now.</param>
    public IReadOnlyList<double> After(DateTimeOffset now, double airCelsius)
    {
        if (moves.Length == 0 || !IsUsableAt(now)) return [];
        var gone = (int)(now - at).TotalMinutes;
        var air = new double[Minutes + 1 - gone];
        for (var minute = 0; minute < air.Length; minute++) air[minute] = airCelsius + moves[gone + minute] - moves[gone];
        return air;
    }

    /// <summary>
    /// How far the air may depart from what is expected, as the standard deviation to which its departure grows, K; null when too few errors of such
    /// forecasts are known yet or the course is too old.
    /// </summary>
    /// <remarks>From the 90 % intervals that errors of the past gave, the mean over half an hour to two hours ahead, each as a departure of <see cref="ThermalNoise.AirForecastMemory"/>.</remarks>
    /// <param name="now">Now.</param>
    public double? SpreadKelvinsAt(DateTimeOffset now) => IsUsableAt(now) && spreadKelvins > 0 ? spreadKelvins : null;

    private bool IsUsableAt(DateTimeOffset now) => now >= at && now - at <= UsableFor;

    private static double[] Moves(ZoneForecast forecast)
    {
        var moves = new double[Minutes + 1];
        double from = 0, moved = 0;
        foreach (var point in forecast.Points)
        {
            var to = point.Ahead.TotalMinutes;
            var move = IsBetter(point) ? point.Celsius - forecast.AirCelsius : 0;
            for (var minute = (int)from + 1; minute <= Math.Min(to, Minutes); minute++) moves[minute] = moved + ((move - moved) * (minute - from) / (to - from));
            (from, moved) = (to, move);
        }

        return moves;
    }

    private static double Spread(IReadOnlyList<ForecastPoint> points, ThermalNoise noise)
    {
        var known = points.Where(point => point.Ahead >= NearestOfSpread && point.Ahead <= FarthestOfSpread && point is { Residuals: > 0, Widened: false }).ToList();
        return known.Count == 0 ? 0 : Math.Max(noise.LeastAirForecastKelvins, known.Average(point =>
            (point.HighCelsius - point.LowCelsius) / (2 * SigmasOf90Percent) / Math.Sqrt(1 - Math.Exp(-2 * (point.Ahead / noise.AirForecastMemory)))));
    }

    private static bool IsBetter(ForecastPoint point) => point.Model != AirModelKind.Persistence && !point.Widened;
}
