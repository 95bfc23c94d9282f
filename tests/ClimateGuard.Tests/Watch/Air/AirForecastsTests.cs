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
