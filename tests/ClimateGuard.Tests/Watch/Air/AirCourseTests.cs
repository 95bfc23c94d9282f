using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Tests.Watch.Machines;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Air;

/// <summary>How a forecast of the air enters the risk of a cut.</summary>
public sealed class AirCourseTests
{
    private static readonly DateTimeOffset At = Some.Morning;

    [Fact]
    public void Where_persistence_is_shown_the_air_is_expected_to_stay() =>
        Assert.Empty(AirCourse.Of(Forecast(0, (60, AirModelKind.Persistence, false), (240, AirModelKind.Persistence, false)))!.After(At, 20));

    [Fact]
    public void A_rung_with_too_few_errors_does_not_count_yet()
    {
        var course = AirCourse.Of(Forecast(-1, (60, AirModelKind.Reversion, true)))!;

        Assert.Empty(course.After(At, 20));
        Assert.Null(course.SpreadKelvinsAt(At));
    }

    [Fact]
    public void A_zone_of_which_nothing_is_told_has_no_course() => Assert.Null(AirCourse.Of(Forecast(0)));

    [Fact]
    public void The_errors_of_past_forecasts_say_how_far_the_air_may_depart()
    {
        // ±1 K holds 90 % of the errors after an hour: 1/1.645 K then, and with a memory of an hour √(1 − e⁻²) of it is reached by then.
        var hour = AirCourse.Of(Forecast(0, (60, AirModelKind.Persistence, false)))!;
        Assert.Equal(1 / 1.645 / Math.Sqrt(1 - Math.Exp(-2)), hour.SpreadKelvinsAt(At)!.Value, 1e-9);

        // After ten minutes the sensors are most of it, after four hours no cut is left.
        Assert.Null(AirCourse.Of(Forecast(0, (10, AirModelKind.Persistence, false), (240, AirModelKind.Persistence, false)))!.SpreadKelvinsAt(At));
        Assert.Null(hour.SpreadKelvinsAt(At.AddMinutes(16)));
    }

    [Fact]
    public void Where_the_forecasts_missed_by_more_a_cut_is_riskier()
    {
        double Probability(double halfWidth) => new WatchedMachine
        {
            AirAhead = AirCourse.Of(Forecast(4, halfWidth, (30, AirModelKind.Reversion, false), (240, AirModelKind.Reversion, false))),
        }.Load().Outlook.Worst!.Probability;

        Assert.True(Probability(4) > Probability(0.3) + 0.02, $"{Probability(4)} {Probability(0.3)}");
    }

    [Fact]
    public void The_air_at_a_machine_moves_as_that_of_its_zone()
    {
        var course = AirCourse.Of(Forecast(-1, (60, AirModelKind.Reversion, false), (240, AirModelKind.Reversion, false)))!;
        var air = course.After(At, 22);

        Assert.Equal(241, air.Count);
        Assert.Equal((22.0, 21.5, 21.0, 21.0), (air[0], air[30], air[60], air[240]));

        // A quarter of an hour later it has gone a quarter of the way, wherever it stands by then.
        var later = course.After(At.AddMinutes(15), 21.9);
        Assert.Equal(21.9, later[0], 1e-9);
        Assert.Equal(21.15, later[45], 1e-9);
    }

    [Fact]
    public void A_course_that_no_other_followed_is_not_used()
    {
        var course = AirCourse.Of(Forecast(-1, (60, AirModelKind.Reversion, false)))!;
        Assert.Empty(course.After(At.AddMinutes(16), 22));
        Assert.Empty(course.After(At.AddMinutes(-1), 22));
    }

    [Fact]
    public void Air_that_is_known_to_warm_up_raises_the_risk_of_the_cut_before_it_is_warm()
    {
        var stays = new WatchedMachine().Load();
        var warms = new WatchedMachine { AirAhead = AirCourse.Of(Forecast(8, (30, AirModelKind.Reversion, false), (240, AirModelKind.Reversion, false))) }.Load();

        Assert.Equal(Level.Ready, stays.Outlook.Level);
        Assert.True(warms.Outlook.Worst!.Probability > stays.Outlook.Worst!.Probability + 0.1, $"{warms.Outlook.Worst.Probability} {stays.Outlook.Worst.Probability}");
    }

    [Fact]
    public void The_same_course_gives_the_same_outlook_and_is_not_kept_with_the_machine()
    {
        WatchedMachine Machine() => new WatchedMachine { AirAhead = AirCourse.Of(Forecast(8, (30, AirModelKind.Reversion, false))) }.Load();
        var (one, other) = (Machine(), Machine());

        Assert.Equal(one.Outlook.Worst!.Probability, other.Outlook.Worst!.Probability);
        Assert.NotNull(one.State.AirAhead);
        one.AirAhead = null;
        Assert.Null(one.Tick(TimeSpan.FromSeconds(1)).State.AirAhead);
        Assert.DoesNotContain("airAhead", ClimateGuard.Edges.Json.MachineStateJson.ExactText(other.State), StringComparison.OrdinalIgnoreCase);
    }

    private static ZoneForecast Forecast(double move, params (int Minutes, AirModelKind Model, bool Few)[] points) => Forecast(move, 1, points);

    private static ZoneForecast Forecast(double move, double halfWidth, params (int Minutes, AirModelKind Model, bool Few)[] points) => new(
        "main", At, 20, Regime.InControl,
        [.. points.Select(p => new ForecastPoint(TimeSpan.FromMinutes(p.Minutes), 20 + move, 20 + move - halfWidth, 20 + move + halfWidth, p.Model, 100, p.Few))], []);
}
