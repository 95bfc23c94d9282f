using ClimateGuard.Enclosure;

namespace ClimateGuard.Watch;

/// <summary>How the air of a zone is expected to move from a moment on, as far as a forecast is worth more than that it stays. Immutable.</summary>
public sealed class AirCourse
{
    private const int Minutes = 240;

    /// <summary>How long a forecast may be used: one comes every five minutes, and one that no other followed has lost its begin.</summary>
    public static readonly TimeSpan UsableFor = TimeSpan.FromMinutes(15);

    private readonly DateTimeOffset at;
    private readonly double[] moves;

    private AirCourse(DateTimeOffset at, double[] moves) => (this.at, this.moves) = (at, moves);

    /// <summary>The course of a forecast; null when at no horizon anything better than persistence is known.</summary>
    /// <param name="forecast">The forecast of the zone.</param>
    public static AirCourse? Of(ZoneForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        if (!forecast.Points.Any(IsBetter)) return null;
        var moves = new double[Minutes + 1];
        double from = 0, moved = 0;
        foreach (var point in forecast.Points)
        {
            var to = point.Ahead.TotalMinutes;
            var move = IsBetter(point) ? point.Celsius - forecast.AirCelsius : 0;
            for (var minute = (int)from + 1; minute <= Math.Min(to, Minutes); minute++) moves[minute] = moved + ((move - moved) * (minute - from) / (to - from));
            (from, moved) = (to, move);
        }

        return new AirCourse(forecast.At, moves);
    }

    /// <summary>The air expected at a machine by minute, °C: as it is there now, moved as the zone is expected to move; empty when the course is too old.</summary>
    /// <param name="now">Now.</param>
    /// <param name="airCelsius">The air at the machine now.</param>
    public IReadOnlyList<double> After(DateTimeOffset now, double airCelsius)
    {
        if (now < at || now - at > UsableFor) return [];
        var gone = (int)(now - at).TotalMinutes;
        var air = new double[Minutes + 1 - gone];
        for (var minute = 0; minute < air.Length; minute++) air[minute] = airCelsius + moves[gone + minute] - moves[gone];
        return air;
    }

    private static bool IsBetter(ForecastPoint point) => point.Model != AirModelKind.Persistence && !point.Widened;
}
