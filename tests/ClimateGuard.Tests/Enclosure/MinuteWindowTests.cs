using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>The rolling minutes of the live pass.</summary>
public sealed class MinuteWindowTests
{
    private static readonly Cell Cell = SmallCell.Of();
    private static readonly int Air = Cell.IndexOfSensor("air/a1");
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 0, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_minute_is_the_mean_of_its_values_and_the_end_is_not_in_it()
    {
        var window = new MinuteWindow(Cell);
        window.Add(Air, At(0, 10), 20);
        window.Add(Air, At(0, 50), 21);
        window.Add(Air, At(1, 0), 25);

        var frame = window.Before(Start.AddMinutes(1), 60)!;

        Assert.Equal([20.5], frame.Row(Air)!);
        Assert.Equal(Start, frame.Start);
    }

    [Fact]
    public void It_forgets_what_is_older_than_26_hours_and_a_late_reading_of_then_is_left_out()
    {
        var window = new MinuteWindow(Cell);
        for (var minute = 0; minute < 40 * 60; minute++) window.Add(Air, At(minute, 0), minute);
        window.Add(Air, At(100, 0), -50);

        var frame = window.Before(Start.AddHours(40), 40 * 60)!;

        Assert.Equal(MinuteWindow.DayMinutes, frame.Minutes);
        Assert.Equal((40 * 60) - MinuteWindow.DayMinutes, frame.Row(Air)![0]);
        Assert.Equal((40 * 60) - 1, frame.Row(Air)![^1]);
    }

    [Fact]
    public void A_late_reading_of_the_last_hours_joins_its_minute()
    {
        var window = new MinuteWindow(Cell);
        window.Add(Air, At(30, 0), 20);
        window.Add(Air, At(5, 0), 18);
        window.Add(Air, At(30, 20), 22);

        var row = window.Before(Start.AddMinutes(31), 60)!.Row(Air)!;

        Assert.Equal(18, row[0]);
        Assert.Equal(21, row[^1]);
    }

    [Fact]
    public void History_fills_what_is_not_live_and_nothing_else()
    {
        var window = new MinuteWindow(Cell);
        window.Add(Air, At(10, 0), 20);
        window.Fill(Air, Start.AddMinutes(9), 19);
        window.Fill(Air, Start.AddMinutes(10), 50);

        Assert.Equal([19, 20], window.Before(Start.AddMinutes(11), 60)!.Row(Air)!);
        Assert.Equal(Start.AddMinutes(9), window.From);
    }

    [Fact]
    public void A_gap_of_days_leaves_nothing_of_before()
    {
        var window = new MinuteWindow(Cell);
        window.Add(Air, At(0, 0), 20);
        window.Add(Air, At(3 * 1440, 0), 21);

        Assert.Equal([21], window.Before(Start.AddDays(3).AddMinutes(1), 60)!.Row(Air)![^1..]);
        Assert.Single(window.Before(Start.AddDays(3).AddMinutes(1), MinuteWindow.DayMinutes)!.Row(Air)!, value => !double.IsNaN(value));
    }

    [Fact]
    public void A_value_that_is_no_number_is_left_out()
    {
        var window = new MinuteWindow(Cell);
        window.Add(Air, At(0, 0), double.NaN);

        Assert.Null(window.Before(Start.AddMinutes(1), 60));
        Assert.Null(window.From);
    }

    private static long At(int minute, int second) => Start.AddMinutes(minute).AddSeconds(second).ToUnixTimeMilliseconds();
}
