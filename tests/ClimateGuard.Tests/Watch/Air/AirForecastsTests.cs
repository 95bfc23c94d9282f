using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Air;

/// <summary>The forecasts of a running cell: lived, and learned from history.</summary>
public sealed class AirForecastsTests
{
    private const int Day = 24 * 60;
    private static readonly Cell Cell = SmallCell.Of();
    private static readonly double[] Air = Wander(6 * Day);

    [Fact]
    public void Days_of_history_and_then_minutes_are_as_good_as_having_lived_them()
    {
        var learned = AirForecasts.Learned(Cell, Enumerable.Range(0, 5).Select(day => Frame(day * Day, Day)));
        var lived = new AirForecasts(Cell);
        for (var minute = 0; minute < 6 * Day; minute += 60)
        {
            ZoneSignals[] hour = [new(Cell, Cell.Zones[0], Frame(Math.Max(0, minute - 60), Math.Min(120, minute + 60)))];
            lived.Take(hour);
            if (minute >= 5 * Day) learned.Take(hour);
        }

        Assert.Equal(lived.LatestOf(0).Points, learned.LatestOf(0).Points);
        Assert.Equal(lived.ScoresOf(0), learned.ScoresOf(0));
        Assert.NotNull(lived.CourseOf("main"));
        Assert.Null(lived.CourseOf("elsewhere"));
    }

    [Fact]
    public void A_running_cell_shows_what_the_air_will_be_and_how_good_that_was()
    {
        var start = CourseOf.Monday;
        var loop = new EventTimeLoop(Cell, "1", start);
        for (var minute = 0; minute < Day; minute++)
        {
            foreach (var id in (string[])["air/a1", "air/a2", "air/a3"])
                loop.Take(new Reading(Cell.IndexOfSensor(id), start.AddMinutes(minute).ToUnixTimeMilliseconds(), Air[minute]), live: true);
            loop.Step(start.AddMinutes(minute), null);
        }

        var zone = loop.Snapshot.Air.Zones[0];
        Assert.Equal(9, zone.Forecast!.Points.Count);
        Assert.Equal(Regime.InControl, zone.Forecast.Regime);
        Assert.Contains(zone.Scores, score => score.Told > 100 && score.MaeKelvins > 0);
    }

    [Fact]
    public void A_set_back_that_the_plant_file_states_is_seen_coming_and_enters_the_course_of_the_air()
    {
        // Nobody measures the set point. Each Wednesday noon the zone is let go to 23 °C until Thursday noon, for one more time tomorrow.
        var back = new SetBack(new WeekTime(DayOfWeek.Wednesday, new TimeOnly(12, 0)), new WeekTime(DayOfWeek.Thursday, new TimeOnly(12, 0)), new Celsius(23));
        Zone zone = new() { Id = "main", SetBacks = [back] };
        var cells = new[] { Cell, new Cell(Cell.Description with { Zones = [zone] }) };
        var air = Wander(10 * Day);
        var (from, minutes) = (CourseOf.Monday, (9 * Day) + (11 * 60));
        var courses = cells.Select(cell =>
        {
            var forecasts = new AirForecasts(cell);
            for (var minute = 0; minute < minutes; minute += 60)
            {
                var window = new MinuteWindow(cell);
                for (var m = minute; m < minute + 60; m++)
                {
                    var away = m / Day % 7 == 2 && m % Day >= 720 || m / Day % 7 == 3 && m % Day < 720 ? 3 : 0;
                    window.Add(cell.IndexOfSensor("air/a1"), from.AddMinutes(m).ToUnixTimeMilliseconds(), air[m] + away);
                }

                forecasts.Take([new ZoneSignals(cell, cell.Zones[0], window.Before(from.AddMinutes(minute + 60), 60)!)]);
            }

            return forecasts.LatestOf(0);
        }).ToArray();

        // An hour before it begins, three hours into it: without a word the air is expected to stay about where it is.
        Assert.InRange(courses[0].Points[^1].Celsius, 19, 21);
        Assert.InRange(courses[1].Points[^1].Celsius, 22.5, 23.5);
        Assert.NotNull(AirCourse.Of(courses[1]));
    }

    private static SignalFrame Frame(int from, int minutes)
    {
        var window = new MinuteWindow(Cell);
        for (var minute = from; minute < from + minutes; minute++)
        {
            foreach (var id in (string[])["air/a1", "air/a2", "air/a3"])
                window.Add(Cell.IndexOfSensor(id), CourseOf.Monday.AddMinutes(minute).ToUnixTimeMilliseconds(), Air[minute]);
        }

        return window.Before(CourseOf.Monday.AddMinutes(from + minutes), minutes)!;
    }

    private static double[] Wander(int minutes)
    {
        var random = new Random(5);
        var air = new double[minutes];
        for (var m = 0; m < minutes; m++) air[m] = 20 + (0.9 * ((m > 0 ? air[m - 1] : 20) - 20)) + (0.1 * (random.NextDouble() - 0.5));
        return air;
    }
}
