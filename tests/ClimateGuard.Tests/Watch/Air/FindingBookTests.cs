using ClimateGuard.Enclosure;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Air;

/// <summary>When a finding is told, when it is over, and what a person's answer does.</summary>
public sealed class FindingBookTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 4, 8, 0, 0, TimeSpan.Zero);
    private readonly FindingBook book = new();

    [Fact]
    public void It_is_told_once_its_signs_have_lasted()
    {
        // F06 is told after 30 min
        Assert.Null(Take(F06(0.9, onset: 0), minute: 20));
        var told = Take(F06(0.9, onset: 0), minute: 30)!;

        Assert.Equal(FindingState.Open, told.State);
        Assert.Equal("F06-ahu1-202603040830", told.Id);
        Assert.Null(Take(F06(0.95, onset: 0), minute: 35));
        Assert.Equal(0.95, Assert.Single(book.Standing).Probability);
    }

    [Fact]
    public void Without_a_known_onset_its_signs_count_from_the_first_pass_that_shows_them()
    {
        Assert.Null(Take(F06(0.9), 40));
        Assert.Null(Take(F06(0.9), 65));
        Assert.NotNull(Take(F06(0.9), 70));
    }

    [Fact]
    public void Signs_that_come_and_go_are_not_told()
    {
        for (var minute = 0; minute < 600; minute += 10) Assert.Null(Take(F06(minute % 20 == 0 ? 0.6 : 0.4), minute));
    }

    [Fact]
    public void A_finding_that_stands_does_not_chatter_between_its_two_limits()
    {
        Take(F06(0.9, onset: 0), 30);
        for (var minute = 35; minute < 600; minute += 5) Assert.Null(book.Take(F06(minute % 10 == 0 ? 0.35 : 0.6), minute % 10 == 0 ? 0.35 : 0.6, At(minute)));

        Assert.Single(book.Standing);
    }

    [Fact]
    public void It_is_over_once_its_signs_are_gone_for_long_enough()
    {
        Take(F06(0.9, onset: 0), 30);

        // its last minutes say no while the day still shows it: they cover the hour that F06 wants
        var over = book.Take(F06(0.9), 0.1, At(200))!;

        Assert.Equal(FindingState.Closed, over.State);
        Assert.Equal("its signs are gone", over.ClosedBecause);
        Assert.Empty(book.Standing);
        Assert.Equal(over, Assert.Single(book.Closed));
        Assert.Null(Take(F06(0.9, onset: 0), 205, stands: 0.1));
    }

    [Fact]
    public void Signs_of_before_it_ended_do_not_open_it_again_at_once()
    {
        Take(F06(0.9, onset: 0), 30);
        book.Take(F06(0.9), 0.1, At(200));

        Assert.Null(Take(F06(0.9, onset: 0), 220));
        Assert.Null(Take(F06(0.9, onset: 0), 245));
        Assert.NotNull(Take(F06(0.9, onset: 0), 250));
    }

    [Fact]
    public void Minutes_that_are_not_known_change_nothing()
    {
        Take(F06(0.9, onset: 0), 30);

        Assert.Null(book.Take(F06(0.0), null, At(300)));
        Assert.Single(book.Standing);
    }

    [Fact]
    public void What_takes_days_to_be_sure_of_is_a_hint_first_and_ends_only_after_days()
    {
        var hint = book.Take(Seen(F29NeighbourHall.Cause, 0.9), 0.9, At(0))!;
        Assert.Equal(FindingState.Hint, hint.State);
        Assert.Null(book.Take(Seen(F29NeighbourHall.Cause, 0.1), 0.1, At(600)));
        Assert.Single(book.Standing);

        var sure = book.Take(Seen(F29NeighbourHall.Cause, 0.9), 0.9, At(1440))!;
        Assert.Equal(FindingState.Open, sure.State);
        Assert.Equal(hint.Id, sure.Id);

        Assert.Null(book.Take(Seen(F29NeighbourHall.Cause, 0.1), 0.1, At(2880)));
        Assert.Equal(FindingState.Closed, book.Take(Seen(F29NeighbourHall.Cause, 0.1), 0.1, At(4320))!.State);
    }

    [Fact]
    public void A_closing_with_its_cause_counts_in_what_is_likely_here_and_it_is_told_again_only_when_it_begins_anew()
    {
        var finding = Take(F06(0.9, onset: 0), 30)!;
        var before = book.Priors.LogOdds(F06InsufficientCapacity.Cause);

        var closed = book.Close(finding, At(60), "T. Auer", "F06", "opened the bypass");

        Assert.Equal(("F06", "opened the bypass", "T. Auer"), (closed.Verified, closed.FixedBy, closed.By));
        Assert.True(book.Priors.LogOdds(F06InsufficientCapacity.Cause) > before);
        Assert.Null(Take(F06(0.9, onset: 0), 120));
        Assert.NotNull(Take(F06(0.9, onset: 90), 125));
    }

    [Fact]
    public void The_newest_answer_for_a_cause_counts_once_and_for_a_day()
    {
        var finding = Take(F06(0.9, onset: 0), 30)!;
        finding = book.Answer(finding, new GivenAnswer(At(40), "F06", false, "T. Auer"));
        finding = book.Answer(finding, new GivenAnswer(At(50), "F06", true, "T. Auer"));
        book.Answer(finding, new GivenAnswer(At(60), "F06", true, "T. Auer"));

        Assert.Equal([new CheckAnswer("F06", true)], book.AnswersFor("ahu1", At(70)));
        Assert.Empty(book.AnswersFor("ahu2", At(70)));
        Assert.Empty(book.AnswersFor("ahu1", At(60 + 1440)));
        Assert.Equal(3, Assert.Single(book.Standing).Answers.Count);
    }

    [Fact]
    public void After_a_restart_it_stands_as_the_last_worker_told_it()
    {
        var open = Take(F06(0.9, onset: 0), 30)!;
        var answered = book.Answer(open, new GivenAnswer(At(40), "F07", false, "T. Auer"));
        var other = Take(Seen(F09ChilledWaterWarm.Cause, 0.9, 0), 40)!;
        var closed = book.Close(other, At(45), "T. Auer", "F09", null);

        var next = new FindingBook();
        next.Restore([open, other, answered, closed]);

        Assert.Equal(answered, Assert.Single(next.Standing));
        Assert.Equal(closed, Assert.Single(next.Closed));
        Assert.Equal(book.AnswersFor("ahu1", At(50)), next.AnswersFor("ahu1", At(50)));
        Assert.Equal(book.Priors.LogOdds(F09ChilledWaterWarm.Cause), next.Priors.LogOdds(F09ChilledWaterWarm.Cause));
    }

    [Fact]
    public void A_day_on_which_a_fault_stood_is_told_from_a_sound_one()
    {
        Take(F06(0.9, onset: 0), 30);
        var day = Start.Date;

        Assert.True(book.WasTold("ahu1", day, day.AddDays(1)));
        Assert.True(book.WasTold("ahu1", day.AddDays(5), day.AddDays(6)));
        Assert.False(book.WasTold("ahu1", day.AddDays(-1), day));
        Assert.False(book.WasTold("ahu2", day, day.AddDays(1)));

        var over = book.Take(F06(0.9), 0.1, At(200))!;
        Assert.Equal(FindingState.Closed, over.State);
        Assert.True(book.WasTold("ahu1", day, day.AddDays(1)));
        Assert.False(book.WasTold("ahu1", day.AddDays(1), day.AddDays(2)));
    }

    [Theory]
    [InlineData("F06", true)]
    [InlineData(null, false)]
    public void What_a_person_found_to_be_no_fault_made_the_day_no_other(string? verified, bool hadFault)
    {
        book.Close(Take(F06(0.9, onset: 0), 30)!, At(60), "T. Auer", verified, null);

        Assert.Equal(hadFault, book.WasTold("ahu1", Start.Date, Start.Date.AddDays(1)));
    }

    private FindingCase? Take(Finding seen, int minute, double? stands = null) => book.Take(seen, stands ?? seen.Probability, At(minute));

    private static Finding F06(double probability, int? onset = null) => Seen(F06InsufficientCapacity.Cause, probability, onset);

    private static Finding Seen(FaultCause cause, double probability, int? onset = null) => new()
    {
        Assessment = new Assessment { Cause = cause, Component = cause.Component, Words = cause.Name, AirHandler = "ahu1" },
        Probability = probability,
        LogOdds = Math.Log(probability / (1 - probability)),
        Onset = onset is { } minute ? At(minute) : null,
    };

    private static DateTimeOffset At(int minute) => Start.AddMinutes(minute);
}
