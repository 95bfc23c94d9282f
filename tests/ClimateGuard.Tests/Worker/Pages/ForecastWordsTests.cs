using ClimateGuard.Enclosure;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Technician;
using ClimateGuard.Worker.Pages.Words;

namespace ClimateGuard.Tests.Worker.Pages;

/// <summary>A forecast as the technician reads it: words first, then how well it held.</summary>
public sealed class ForecastWordsTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 4, 12, 0, 0, TimeSpan.Zero);
    private static readonly CellTime Clock = CellTime.Of("UTC");

    [Fact]
    public void An_hour_ahead_says_how_warm_within_what_by_which_rung_and_how_many_held()
    {
        var line = Assert.Single(ForecastWords.Of(
            Zone([Point(60, 20.42, 20.2, 20.61, AirModelKind.SameClock)], [Score(60, 0.908, 312, 0.08, 0.10)]), Clock, Noon));

        Assert.Equal("In an hour 20.4 °C, 9 in 10 within 20.2 to 20.6.", line.Words);
        Assert.Equal(
            "So it was at this hour on earlier days of that kind. Of 90 in 100 it held 91 (312 told in control), 0.08 K off on average, 20 % nearer than that it stays.",
            line.Because);
    }

    [Fact]
    public void Persistence_is_said_in_plain_words()
    {
        var line = Assert.Single(ForecastWords.Of(Zone([Point(240, 20.4, 19.9, 20.9, AirModelKind.Persistence)], []), Clock, Noon));

        Assert.Equal("In 4 hours 20.4 °C as now, 9 in 10 within 19.9 to 20.9.", line.Words);
        Assert.Equal(
            "Nothing better is known than that it stays as it is. How well that holds is not known: 0 such ranges have come due, 50 are needed.", line.Because);
    }

    [Fact]
    public void A_narrow_range_has_a_digit_more_and_one_without_errors_is_not_known()
    {
        var lines = ForecastWords.Of(
            Zone([Point(60, 20.02, 19.97, 20.08, AirModelKind.Reversion), Point(120, 20.02, double.NaN, double.NaN, AirModelKind.Reversion)], []), Clock, Noon);

        Assert.Equal(
            ["In an hour 20.02 °C, 9 in 10 within 19.97 to 20.08.", "In 2 hours 20.0 °C, within what is not known."], lines.Select(line => line.Words));
    }

    [Fact]
    public void Only_whole_hours_are_told_and_the_score_of_another_regime_does_not_count()
    {
        var zone = Zone([Point(45, 20, 19, 21, AirModelKind.Room), Point(60, 20, 19, 21, AirModelKind.Room)], [Score(60, 0.9, 900, 0.1, 0.1) with { Regime = Regime.Off }]);
        var line = Assert.Single(ForecastWords.Of(zone, Clock, Noon));

        Assert.StartsWith("So say the room, its control and what is known ahead. How well that holds is not known", line.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_not_known_is_said()
    {
        var silent = new ZoneSnapshot("N", Regime.Unknown, null, null, null);
        Assert.Equal("What the air will be is not known yet.", Assert.Single(ForecastWords.Of(silent, Clock, Noon)).Words);

        var old = Zone([Point(60, 20, 19, 21, AirModelKind.Room)], []);
        Assert.Equal("The last forecast is of 12:00 and too old.", Assert.Single(ForecastWords.Of(old, Clock, Noon.AddMinutes(16))).Because);

        var without = silent with { Forecast = new ZoneForecast("N", Noon, double.NaN, Regime.Unknown, [], ["The air of the zone is not known."]) };
        Assert.Equal("The air of the zone is not known.", Assert.Single(ForecastWords.Of(without, Clock, Noon)).Because);
    }

    private static ZoneSnapshot Zone(ForecastPoint[] points, ForecastScore[] scores) => new("N", Regime.InControl, null, 0.4, null)
    {
        Forecast = new ZoneForecast("N", Noon, 20.4, Regime.InControl, points, []), Scores = scores,
    };

    private static ForecastPoint Point(int minutes, double celsius, double low, double high, AirModelKind model) =>
        new(TimeSpan.FromMinutes(minutes), celsius, low, high, model, 300, false);

    private static ForecastScore Score(int minutes, double coverage, long told, double mae, double persistence) =>
        new(Regime.InControl, TimeSpan.FromMinutes(minutes), AirModelKind.SameClock, told, mae, persistence, told, coverage);
}
