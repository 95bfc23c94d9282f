using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>A set-back that was agreed is no finding; one that came without a word, or stayed on, is.</summary>
public sealed class SetBackFindingTests
{
    private const int HalfPastTwo = (14 * 60) + 30;
    private static readonly SetBack WeekEnd = new(new WeekTime(DayOfWeek.Saturday, new TimeOnly(14, 30)), new WeekTime(DayOfWeek.Monday, new TimeOnly(5, 0)), new Celsius(22.6));

    [Fact]
    public void The_week_end_that_the_plant_file_states_is_no_finding() =>
        Assert.False(IsTold(Until(DayOfWeek.Friday, WeekEnd).Day(At, minute => minute < HalfPastTwo ? 20 : 22.6)));

    [Fact]
    public void Nor_is_one_that_the_clock_of_the_unit_begins_twenty_minutes_early() =>
        Assert.False(IsTold(Until(DayOfWeek.Friday, WeekEnd).Day(At, minute => minute < HalfPastTwo - 20 ? 20 : 22.6)));

    [Fact]
    public void A_set_back_that_nobody_stated_is_told() =>
        Assert.True(IsTold(Until(DayOfWeek.Friday).Day(At, minute => minute < HalfPastTwo ? 20 : 22.6)));

    [Fact]
    public void A_stated_set_back_that_stays_on_into_the_shift_is_told() =>
        Assert.True(IsTold(Until(DayOfWeek.Sunday, WeekEnd).Day(At, minute => minute < 10 * 60 ? 22.6 : 20)));

    [Fact]
    public void A_stated_set_back_to_another_temperature_than_agreed_is_told() =>
        Assert.True(IsTold(Until(DayOfWeek.Friday, WeekEnd).Day(At, minute => minute < HalfPastTwo ? 20 : 24)));

    // Working days at 20 °C, the week-end as stated.
    private static DrawnUnit Until(DayOfWeek last, params SetBack[] setBacks)
    {
        var unit = new DrawnUnit(CoolingMedium.ChilledWater, setBacks);
        for (var day = 0; day < 5; day++) unit.Day(At);
        return last == DayOfWeek.Friday ? unit : unit.Day(At, minute => minute < HalfPastTwo ? 20 : 22.6).Day(At, _ => 22.6);
    }

    private static bool IsTold(DrawnUnit unit) => unit.Findings().Single(finding => finding.Assessment.Cause.Id == "F22").Flagged;

    private static (double, double, double, double) At(int minute) => (20 + (0.1 * Math.Sin(minute / 30.0)), 15, 12, 0.5 + (0.05 * Math.Sin(minute / 30.0)));
}
