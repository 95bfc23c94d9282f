using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Enclosure;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Json;

/// <summary>Forecasts in the form that others read.</summary>
public sealed class ForecastJsonTests
{
    private static readonly DateTimeOffset At = new(2026, 3, 4, 14, 0, 0, TimeSpan.Zero);

    // Approved: a change here is a change of what scripts of others read.
    [Fact]
    public void A_forecast_has_the_fields_of_the_contract()
    {
        var zone = new ZoneSnapshot("N", Regime.InControl, At, 0.1, null)
        {
            Forecast = new ZoneForecast(
                "N", At, 20.1234, Regime.InControl,
                [
                    new ForecastPoint(TimeSpan.FromMinutes(60), 20.4, 20.2, 20.6, AirModelKind.SameClock, 312, false),
                    new ForecastPoint(TimeSpan.FromMinutes(240), 20.1234, double.NaN, double.NaN, AirModelKind.Persistence, 0, true),
                ],
                ["a note"]),
            Scores = [new ForecastScore(Regime.InControl, TimeSpan.FromMinutes(60), AirModelKind.SameClock, 320, 0.08123, 0.1, 312, 0.90765)],
        };

        Assert.Equal(
            """
            {"zones":[{"zone":"N","at":"2026-03-04T14:00:00.000Z","airC":20.123,"regime":"in control","points":[{"aheadMinutes":60,"at":"2026-03-04T15:00:00.000Z","airC":20.4,"lowC":20.2,"highC":20.6,"model":"sameClock","errorsKnown":312,"widened":false},{"aheadMinutes":240,"at":"2026-03-04T18:00:00.000Z","airC":20.123,"lowC":null,"highC":null,"model":"persistence","errorsKnown":0,"widened":true}],"scores":[{"regime":"in control","aheadMinutes":60,"model":"sameClock","told":320,"maeK":0.0812,"persistenceMaeK":0.1,"intervalsTold":312,"coverage":0.9077}],"notes":["a note"]}]}
            """,
            Encoding.UTF8.GetString(ForecastJson.ToUtf8([zone])));
    }

    [Fact]
    public void A_zone_without_a_forecast_says_so() => Assert.Equal(
        """
        {"zones":[{"zone":"N","at":null,"airC":null,"regime":"not known","points":[],"scores":[],"notes":["No forecast is made yet."]}]}
        """,
        Encoding.UTF8.GetString(ForecastJson.ToUtf8([new ZoneSnapshot("N", Regime.Unknown, null, null, null)])));
}
