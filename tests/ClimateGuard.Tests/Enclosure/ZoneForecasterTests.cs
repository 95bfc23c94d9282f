using ClimateGuard.Enclosure;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>What the forecast makes of known inputs and of bad ones.</summary>
public sealed class ZoneForecasterTests
{
    private const int Day = 24 * 60;

    [Fact]
    public void Nothing_is_said_before_anything_is_known() => Assert.Equal(["Nothing has come in yet."], CourseOf.Forecaster().Latest.Notes);

    [Fact]
    public void A_gap_is_a_gap()
    {
        var forecaster = CourseOf.Forecaster();
        for (var minute = 0; minute < 300; minute++) forecaster.Take(CourseOf.Minute(minute, 20.3));
        for (var minute = 300; minute < 321; minute++) forecaster.Take(CourseOf.Minute(minute, double.NaN, regime: Regime.Unknown));

        Assert.Empty(forecaster.Latest.Points);
        Assert.Equal(["The air of the zone is not known."], forecaster.Latest.Notes);
    }

    [Fact]
    public void Minutes_that_never_came_are_gaps_and_the_forecast_goes_on_after_them()
    {
        var forecaster = CourseOf.Forecaster();
        for (var minute = 0; minute < 300; minute++) forecaster.Take(CourseOf.Minute(minute, 20.3));
        for (var minute = 900; minute < 911; minute++) forecaster.Take(CourseOf.Minute(minute, 20.8));

        Assert.Equal(CourseOf.Monday.AddMinutes(910), forecaster.Latest.At);
        Assert.Equal(182, forecaster.Course.Count);
        Assert.Equal(120, forecaster.Course.Air.ToArray().Count(double.IsNaN));
        Assert.Equal(9, forecaster.Latest.Points.Count);
    }

    [Fact]
    public void Without_a_set_point_the_air_goes_back_to_its_own_mean_and_the_forecast_says_so()
    {
        var forecaster = CourseOf.Forecaster();
        var random = new Random(3);
        var departure = 0.0;
        for (var minute = 0; minute < 5 * Day; minute++)
        {
            if (minute % 5 == 0) departure = (0.8 * departure) + (0.2 * (random.NextDouble() - 0.5));
            forecaster.Take(CourseOf.Minute(minute, 21 + departure, double.NaN));
        }

        Assert.Contains("No set point is known: the air is taken to go back to its own mean.", forecaster.Latest.Notes);
        var far = forecaster.Latest.Points[^1];
        Assert.Equal(AirModelKind.Reversion, far.Model);
        Assert.Equal(21.0, far.Celsius, 0.05);
    }

    [Fact]
    public void A_set_back_that_ended_at_this_hour_a_week_ago_is_expected_to_end_again()
    {
        // set point 22.6 until Monday 05:00, then 20; the air follows within minutes
        var forecaster = CourseOf.Forecaster();
        for (var minute = 0; minute <= (21 * Day) + (4 * 60); minute++)
        {
            var back = minute % (7 * Day) < 5 * 60 || minute % (7 * Day) > 5 * Day;
            var asked = back ? 22.6 : 20.0;
            forecaster.Take(CourseOf.Minute(minute, asked + (0.05 * Math.Sin(minute / 7.0)), asked, back ? Regime.SetBack : Regime.InControl));
        }

        var points = forecaster.Latest.Points;
        Assert.Equal(22.6, points.Single(p => p.Ahead.TotalMinutes == 45).Celsius, 0.15);
        Assert.Equal(20.0, points.Single(p => p.Ahead.TotalMinutes == 90).Celsius, 0.15);
        Assert.Equal(20.0, points.Single(p => p.Ahead.TotalMinutes == 240).Celsius, 0.15);
    }

    [Fact]
    public void A_set_point_that_was_stated_counts_over_the_week_before()
    {
        ZoneForecaster unstated = CourseOf.Forecaster(), stated = CourseOf.Forecaster();
        stated.State([new SetpointChange(CourseOf.Monday.AddDays(3).AddMinutes(60), 22.0)]);
        foreach (var forecaster in (ZoneForecaster[])[unstated, stated])
        {
            for (var minute = 0; minute <= 3 * Day; minute++)
            {
                // each noon the set point goes up by a kelvin for six hours, so that following it pays
                var asked = minute % Day is >= 720 and < 1080 ? 21.0 : 20.0;
                forecaster.Take(CourseOf.Minute(minute, asked + (0.05 * Math.Sin(minute / 7.0)), asked));
            }
        }

        Assert.Equal(20.0, unstated.Latest.Points[^1].Celsius, 0.2);
        Assert.InRange(stated.Latest.Points[^1].Celsius, 21.8, 22.2);
    }

    [Theory]
    [InlineData(20.0, 20.0)]
    [InlineData(21.2, 21.2)]
    public void What_is_stated_counts_alone_while_it_is_in_force_and_from_its_next_change_on_while_it_is_not(double inForce, double expectedBefore)
    {
        // Last week the set point went to 23 °C half an hour from now; stated is 22 °C from an hour from now on, and 20 °C until then.
        var forecaster = CourseOf.Forecaster();
        var now = 9 * Day;
        forecaster.State([new SetpointChange(CourseOf.Monday, 20), new SetpointChange(CourseOf.Monday.AddMinutes(now + 60), 22)]);
        for (var minute = 0; minute <= now; minute++)
        {
            // Each noon the set point goes up by a kelvin for six hours, so that following it pays.
            var asked = minute > now - 30 ? inForce : minute is >= (2 * Day) + 30 and < (2 * Day) + 240 ? 23.0 : minute % Day is >= 720 and < 1080 ? 21.0 : 20.0;
            forecaster.Take(CourseOf.Minute(minute, asked + (0.05 * Math.Sin(minute / 7.0)), asked));
        }

        Assert.Equal(expectedBefore, forecaster.Latest.Points.Single(p => p.Ahead.TotalMinutes == 45).Celsius, 0.3);
        Assert.Equal(22, forecaster.Latest.Points[^1].Celsius, 0.3);
    }

    [Fact]
    public void A_regime_never_seen_says_that_its_intervals_are_borrowed_and_wide()
    {
        var forecaster = CourseOf.Forecaster();
        for (var minute = 0; minute < 3 * Day; minute++) forecaster.Take(CourseOf.Minute(minute, 20 + (0.3 * Math.Sin(minute / 50.0))));
        var usual = forecaster.Latest.Points[^1];
        for (var minute = 3 * Day; minute < (3 * Day) + 6; minute++) forecaster.Take(CourseOf.Minute(minute, 20, regime: Regime.Off));
        var rare = forecaster.Latest.Points[^1];

        Assert.False(usual.Widened);
        Assert.True(rare.Widened);
        Assert.True(rare.HighCelsius - rare.LowCelsius > usual.HighCelsius - usual.LowCelsius);
        Assert.Contains(forecaster.Latest.Notes, note => note.StartsWith("Too few forecasts made with the fans off", StringComparison.Ordinal));
    }
}
