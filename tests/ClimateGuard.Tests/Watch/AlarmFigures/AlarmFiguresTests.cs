using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Figures = ClimateGuard.Watch.AlarmFigures;

namespace ClimateGuard.Tests.Watch.AlarmFigures;

public sealed class AlarmFiguresTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 5, 0, 0, TimeSpan.Zero); // 06:00 in Vienna, a Monday
    private static readonly TimeZoneInfo Vienna = TimeZoneInfo.FindSystemTimeZoneById("Europe/Vienna");
    private static readonly DayOfWeek[] Week = [DayOfWeek.Monday, DayOfWeek.Tuesday, DayOfWeek.Wednesday, DayOfWeek.Thursday, DayOfWeek.Friday];

    private readonly Figures figures = new(
        [new Shift("early", new TimeOnly(6, 0), new TimeOnly(14, 0), Week), new Shift("late", new TimeOnly(14, 0), new TimeOnly(22, 0), Week)], Vienna, Start);

    [Fact]
    public void Nothing_yet_gives_zeros_and_judges_nothing_that_needs_a_month()
    {
        var report = figures.At(Start);

        Assert.Equal(0, report.Alarms);
        Assert.Equal(new PriorityShares(0, 0, 0), report.Priorities);
        Assert.All(report.Figures, figure => Assert.True(double.IsFinite(figure.Value)));
        Assert.Equal(AlarmStanding.NotJudged, Of(report, "alarmsPerDay").Standing);
    }

    [Fact]
    public void Raised_again_while_it_stands_is_news_not_an_alarm()
    {
        Raise("a", 0);
        Raise("a", 60);
        Assert.Equal(1, figures.At(Start.AddMinutes(2)).Alarms);
        Clear("a", 130);
        Raise("a", 200);
        Assert.Equal(2, figures.At(Start.AddMinutes(4)).Alarms);
    }

    [Fact]
    public void A_flood_begins_with_the_eleventh_alarm_in_ten_minutes_and_ends_when_fewer_than_five_are_left()
    {
        for (var n = 0; n < 10; n++)
        {
            Raise($"a{n}", 30 * n);
        }

        Assert.False(figures.At(Start.AddSeconds(290)).InFlood);
        Raise("a10", 300);
        Assert.True(figures.At(Start.AddSeconds(300)).InFlood);

        // The seventh leaves the window at 780 s and leaves four: 210, 240, 270, 300.
        Assert.True(figures.At(Start.AddSeconds(779)).InFlood);
        var after = figures.At(Start.AddSeconds(960));
        Assert.False(after.InFlood);
        Assert.Equal(1, after.Floods);
        Assert.Equal(480.0 / 960, after.FloodShare, 1e-12);
    }

    [Fact]
    public void A_flood_of_which_nobody_asked_for_an_hour_ends_when_it_ended_not_when_asked()
    {
        for (var n = 0; n < 11; n++)
        {
            Raise($"a{n}", 0);
        }

        Assert.Equal(600.0 / 7200, figures.At(Start.AddHours(2)).FloodShare, 1e-12);
    }

    [Fact]
    public void Alarms_are_counted_per_ten_minutes_hour_and_shift()
    {
        foreach (var minutes in new[] { 1, 2, 70, 75, 8 * 60, (8 * 60) + 5 })
        {
            Raise($"a{minutes}", 60 * minutes);
        }

        var report = figures.At(Start.AddMinutes((8 * 60) + 6));
        Assert.Equal(2, report.InTenMinutes);
        Assert.Equal(2, report.InAnHour);
        Assert.Equal(2, report.InThisShift); // 14:00 local begins the late shift
        Assert.Equal(3, Of(report, "alarmsPerShift").Value);
        Assert.Equal(4, Of(report, "mostAlarmsInAShift").Value);
        Assert.Equal(AlarmStanding.TooMany, Of(report, "mostAlarmsInAShift").Standing);
        Assert.Null(figures.At(Start.AddHours(17)).InThisShift);
    }

    [Fact]
    public void Three_activations_in_a_minute_chatter_and_two_do_not()
    {
        foreach (var seconds in new[] { 0, 20, 61 })
        {
            Raise("slow", seconds);
            Clear("slow", seconds + 5);
        }

        foreach (var seconds in new[] { 100, 120, 159, 160 })
        {
            Raise("fast", seconds, cause: "not known");
            Clear("fast", seconds);
        }

        var report = figures.At(Start.AddMinutes(5));
        Assert.Equal([new AlarmCause("m1", "not known", 1, 1.0 / 7)], report.Chattering);
        Assert.Equal(AlarmStanding.TooMany, Of(report, "chatteringCauses").Standing);
    }

    [Fact]
    public void An_alarm_is_stale_after_more_than_a_day()
    {
        Raise("a", 0);
        Assert.Empty(figures.At(Start.AddHours(24)).Stale);
        Assert.Equal(["a"], figures.At(Start.AddHours(24).AddTicks(1)).Stale);
        Clear("a", 25 * 3600);
        Assert.Empty(figures.At(Start.AddHours(26)).Stale);
    }

    [Fact]
    public void Top_causes_and_priorities_add_up()
    {
        for (var n = 0; n < 8; n++)
        {
            Raise($"a{n}", n, priority: AlertPriority.Low);
        }

        Raise("b", 10, cause: "not known", priority: AlertPriority.Medium);
        Raise("c", 11, cause: "channel", machine: null, priority: AlertPriority.High);
        var report = figures.At(Start.AddMinutes(1));

        Assert.Equal(new AlarmCause("m1", "hold", 8, 0.8), report.TopCauses[0]);
        Assert.Equal(new PriorityShares(0.8, 0.1, 0.1), report.Priorities);
        Assert.Equal([8L, 1L, 1L], figures.Totals);
    }

    [Fact]
    public void After_thirty_days_the_oldest_are_forgotten_and_the_figures_are_judged()
    {
        for (var day = 0; day < 40; day++)
        {
            for (var n = 0; n < 200; n++)
            {
                var at = (day * 86_400) + (n * 430);
                Raise($"a{n}", at);
                Clear($"a{n}", at + 1);
            }
        }

        var report = figures.At(Start.AddDays(40));
        Assert.True(report.EnoughEvidence);
        Assert.Equal(Start.AddDays(10), report.Since);
        Assert.InRange(report.Alarms, 6000, 6001);
        Assert.Equal(AlarmStanding.Manageable, Of(report, "alarmsPerDay").Standing);
        Assert.Equal(AlarmStanding.Manageable, Of(report, "alarmsPerHour").Standing);
        Assert.Equal(AlarmStanding.Acceptable, Of(report, "timeInFlood").Standing);
    }

    [Fact]
    public void Time_that_runs_backwards_counts_as_now()
    {
        Raise("a", 600);
        Raise("b", 0);
        Assert.Equal(2, figures.At(Start).InTenMinutes);
    }

    private static AlarmFigure Of(AlarmFiguresReport report, string name) => report.Figures.Single(figure => figure.Name == name);

    private void Raise(string id, double seconds, string cause = "hold", string? machine = "m1", AlertPriority priority = AlertPriority.Low) =>
        figures.Take(new RankedAlert(new AlertRaised(Start.AddSeconds(seconds), new Alert(id, machine, cause, "text", "act", false)), priority));

    private void Clear(string id, double seconds) =>
        figures.Take(new RankedAlert(new AlertRaised(Start.AddSeconds(seconds), new Alert(id, "m1", "hold", "text", "act", true)), AlertPriority.Low));
}
