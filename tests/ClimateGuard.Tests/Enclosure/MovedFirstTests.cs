using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>What moved first is what left its usual course, not what moves each day.</summary>
public sealed class MovedFirstTests
{
    private const int ShiftBegins = 6 * 60;
    private const int RoomMoves = 10 * 60;

    [Fact]
    public void A_command_that_rises_each_morning_with_the_shift_did_not_move()
    {
        var moved = Told(daysBefore: 4);

        Assert.Contains(moved[0].Signal, (string[])["room air", "return air"]);
        Assert.InRange(moved[0].Minute, RoomMoves - 5, RoomMoves + 10);
        Assert.DoesNotContain(moved, one => one.Signal is "cooling command" or "supply air");
    }

    [Fact]
    public void Where_fewer_than_three_other_days_are_known_the_night_is_the_usual_course() =>
        Assert.Contains(Told(daysBefore: 2), one => one.Signal == "cooling command" && Math.Abs(one.Minute - ShiftBegins) <= 10);

    // Somebody moves the set point at ten, and the room follows.
    private static List<(string Signal, int Minute)> Told(int daysBefore)
    {
        var unit = new DrawnUnit(CoolingMedium.ChilledWater);
        for (var day = 0; day < daysBefore; day++) unit.Day(minute => At(minute, 20, day));
        unit.Day(minute => At(minute, minute < RoomMoves ? 20 : 21, daysBefore), minute => minute < RoomMoves ? 20 : 21);
        var first = unit.Findings()[0];
        Assert.Equal(("F22", true), (first.Assessment.Cause.Id, first.Flagged));
        return [.. first.MovedFirst.Select(one => (one.Signal, (int)one.At.TimeOfDay.TotalMinutes))];
    }

    private static (double, double, double, double) At(int minute, double room, int day)
    {
        var wave = 0.02 * Math.Sin((minute + (17 * day)) / 9.0);
        var command = (minute < ShiftBegins ? 0.3 : 0.6) + wave;
        return (room + wave, 20 - (8 * command), 12, command);
    }
}
