namespace ClimateGuard.Enclosure;

/// <summary>What the air of a zone is expected to be after some time.</summary>
/// <param name="Ahead">How far ahead, 10 min to 4 h.</param>
/// <param name="Celsius">The air expected, °C.</param>
/// <param name="LowCelsius">Lower end of the 90 % interval, °C.</param>
/// <param name="HighCelsius">Upper end of the 90 % interval, °C.</param>
/// <param name="Model">The rung that says so.</param>
/// <param name="Residuals">From how many errors of the past the interval comes.</param>
/// <param name="Widened">Whether they were too few, fewer than 50 or of fewer than three days, which makes it wider by a fifth.</param>
public sealed record ForecastPoint(
    TimeSpan Ahead, double Celsius, double LowCelsius, double HighCelsius, AirModelKind Model, int Residuals, bool Widened);

/// <summary>The forecast of a zone. Immutable.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="At">From when it looks ahead.</param>
/// <param name="AirCelsius">The air then, °C.</param>
/// <param name="Regime">How the air was kept then.</param>
/// <param name="Points">The horizons, ascending; empty where nothing can be said.</param>
/// <param name="Notes">What limits it, in words for a person.</param>
public sealed record ZoneForecast(
    string Zone, DateTimeOffset At, double AirCelsius, Regime Regime, IReadOnlyList<ForecastPoint> Points, IReadOnlyList<string> Notes);

/// <summary>How well the forecast did, each moment told before it came.</summary>
/// <param name="Regime">The regime at the moment of telling.</param>
/// <param name="Ahead">How far ahead.</param>
/// <param name="Model">The rung in use now.</param>
/// <param name="Told">How many forecasts have come due.</param>
/// <param name="MaeKelvins">Mean absolute error of what was shown, K; NaN when nothing was told.</param>
/// <param name="PersistenceMaeKelvins">That of persistence on the same moments, K.</param>
/// <param name="IntervalsTold">How many of them had an interval.</param>
/// <param name="Coverage">Share of these that fell into their nominal 90 % interval; NaN when none was told.</param>
public sealed record ForecastScore(
    Regime Regime, TimeSpan Ahead, AirModelKind Model, long Told, double MaeKelvins, double PersistenceMaeKelvins, long IntervalsTold, double Coverage)
{
    /// <summary>1 − error / error of persistence: above 0 it is worth showing.</summary>
    public double Skill => PersistenceMaeKelvins > 0 ? 1 - (MaeKelvins / PersistenceMaeKelvins) : 0;
}
