using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>Set-backs of the plant file as changes in time.</summary>
public sealed class SetBackProgrammeTests
{
    private static readonly TimeZoneInfo Vienna = TimeZoneInfo.FindSystemTimeZoneById("Europe/Vienna");

    private static readonly Zone Zone = new()
    {
        Id = "N",
        SetBacks =
        [
            Back(DayOfWeek.Saturday, "14:30", DayOfWeek.Monday, "05:00", 22.6),
            Back(DayOfWeek.Monday, "05:00", DayOfWeek.Monday, "06:00", 21),
        ],
    };

    [Fact]
    public void The_week_in_instants_on_the_night_the_clocks_go_forward()
    {
        // 29 March 2026: Central European Time ends at 01:00 UTC (EU Directive 2000/84/EC). Saturday 14:30 is 13:30 UTC, Monday 05:00 is 03:00 UTC.
        var changes = new SetBackProgramme(Zone, Vienna).Around(At("2026-03-28T20:00:00Z")).Where(change => change.At > At("2026-03-27T00:00:00Z")).ToList();

        Assert.Equal(
            [
                new(At("2026-03-28T13:30:00Z"), 22.6), new(At("2026-03-30T03:00:00Z"), 20), new(At("2026-03-30T03:00:00Z"), 21), new(At("2026-03-30T04:00:00Z"), 20),
            ],
            changes);
    }

    [Fact]
    public void The_change_in_force_is_always_among_them()
    {
        var programme = new SetBackProgramme(Zone, Vienna);
        for (var hour = 0; hour < 21 * 24; hour++)
        {
            var moment = At("2026-03-16T00:15:00Z").AddHours(hour);
            Assert.Equal(programme.At(moment), programme.Around(moment).Last(change => change.At <= moment).Celsius);
        }
    }

    [Theory]
    [InlineData("2026-03-28T13:29:00Z", 20)]
    [InlineData("2026-03-28T13:30:00Z", 22.6)]
    [InlineData("2026-03-30T02:59:00Z", 22.6)]
    [InlineData("2026-03-30T03:00:00Z", 21)]
    [InlineData("2026-03-30T04:00:00Z", 20)]
    public void What_is_asked_at_a_moment(string moment, double celsius) => Assert.Equal(celsius, new SetBackProgramme(Zone, Vienna).At(At(moment)));

    [Fact]
    public void A_zone_without_a_set_back_states_nothing() =>
        Assert.Empty(new SetBackProgramme(new Zone { Id = "N" }, Vienna).Around(At("2026-03-28T20:00:00Z")));

    private static SetBack Back(DayOfWeek fromDay, string from, DayOfWeek untilDay, string until, double celsius) => new(
        new WeekTime(fromDay, TimeOnly.ParseExact(from, "HH:mm")), new WeekTime(untilDay, TimeOnly.ParseExact(until, "HH:mm")), new Celsius(celsius));

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
