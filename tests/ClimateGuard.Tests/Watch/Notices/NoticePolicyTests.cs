using ClimateGuard.Edges.Notices;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using static ClimateGuard.Watch.NoticeKind;

namespace ClimateGuard.Tests.Watch.Notices;

public sealed class NoticePolicyTests
{
    private static readonly DateTimeOffset Morning = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);

    private static NoticeScript Begin(NoticeRules? rules = null) => new(rules ?? NoticeScript.Rules, Morning);

    [Fact]
    public void A_hold_is_told_once_with_its_action_and_told_as_over_in_the_same_conversation()
    {
        var script = Begin().Raise("m4").AfterMinutes(10).Clear("m4").AfterMinutes(2);

        Assert.Equal([Opened, Closed], script.Kinds);
        Assert.Equal("cell4: hold on m4", script.Said[0].Subject);
        Assert.StartsWith("Do not start.", script.Said[0].Action, StringComparison.Ordinal);
        Assert.Contains("Since 2026-03-02 08:00.", script.Said[0].Lines);
        Assert.Equal("Over: cell4: hold on m4", script.Said[1].Subject);
        Assert.Equal(script.Said[0].Key, script.Said[1].GoesOnFrom);
        Assert.Equal(["m4/SN1/30/hold"], script.Said[1].Closes);
    }

    [Fact]
    public void One_that_is_over_before_anyone_could_walk_there_is_not_told() =>
        Assert.Empty(Begin().Raise("m4").AfterSeconds(10).Clear("m4").AfterMinutes(10).Said);

    [Fact]
    public void It_is_followed_up_once_at_30_minutes_and_once_at_2_hours()
    {
        var script = Begin().Raise("m4").AfterMinutes(29);
        Assert.Equal([Opened], script.Kinds);
        script.AfterMinutes(2);
        Assert.Equal([Opened, FollowedUp], script.Kinds);
        Assert.Equal("Still so after 30 min: cell4: hold on m4", script.Said[1].Subject);
        script.AfterMinutes(88);
        Assert.Equal([Opened, FollowedUp], script.Kinds);
        script.AfterMinutes(20 * 60);
        Assert.Equal([Opened, FollowedUp, FollowedUp], script.Kinds);
        Assert.Equal("Still so after 2 h: cell4: hold on m4", script.Said[2].Subject);
    }

    [Fact]
    public void Numbers_that_move_are_no_news()
    {
        var script = Begin().Raise("m4").AfterMinutes(6);
        foreach (var celsius in new[] { "23.5", "22.9", "24" })
        {
            script.Raise("m4", $"Coolant is {celsius} °C and the part follows it; air is 20.2 °C.").AfterMinutes(6);
        }

        Assert.Equal([Opened], script.Kinds);
    }

    [Fact]
    public void Another_reason_is_news_and_told_as_a_change()
    {
        var script = Begin().Raise("m4").AfterMinutes(6).Raise("m4", "The machine has moved since the datum was probed 40 min ago.").AfterMinutes(1);

        Assert.Equal([Opened, Edited], script.Kinds);
        Assert.Contains("The machine has moved", script.Said[1].Lines[0], StringComparison.Ordinal);
        Assert.Equal(script.Said[0].Key, script.Said[1].GoesOnFrom);
    }

    [Fact]
    public void Six_machines_with_one_reason_are_one_notice_with_six_affected_jobs()
    {
        var script = Begin();
        foreach (var n in Enumerable.Range(1, 6))
        {
            script.Raise($"m{n}", $"Coolant is 23.{n} °C and the part follows it; air is 20.1 °C.").AfterSeconds(2);
        }

        script.AfterMinutes(1);
        Assert.Equal([Opened], script.Kinds);
        Assert.Equal(6, script.Said[0].AffectedJobs);
        Assert.Equal(["m1", "m2", "m3", "m4", "m5", "m6"], script.Said[0].Machines);
        Assert.Equal("cell4: hold, 6 affected jobs, the same reason: m1, m2, m3, m4, m5, m6", script.Said[0].Subject);
    }

    [Fact]
    public void A_machine_that_follows_within_ten_minutes_is_told_as_a_change_of_the_same_notice()
    {
        var script = Begin().Raise("m1").AfterMinutes(7).Raise("m2").AfterMinutes(1).Clear("m1").Clear("m2").AfterMinutes(2);

        Assert.Equal([Opened, Edited, Closed], script.Kinds);
        Assert.Equal(2, script.Said[1].AffectedJobs);
        Assert.Equal(["m2/SN1/30/hold"], script.Said[1].Opens);
        Assert.Equal(["m1/SN1/30/hold", "m2/SN1/30/hold"], script.Said[2].Closes);
    }

    [Fact]
    public void Two_machines_with_different_reasons_are_two_notices()
    {
        var script = Begin().Raise("m1").Raise("m2", "The part is 18.0 °C, the scale 20.0 °C: the part is cold.").AfterMinutes(1);

        Assert.Equal([Opened, Opened], script.Kinds);
        Assert.All(script.Said, notice => Assert.Equal(1, notice.AffectedJobs));
    }

    [Fact]
    public void A_cold_part_is_not_the_same_news_as_a_warm_one()
    {
        var script = Begin().Raise("m2", "The part is 18.0 °C, the scale 20.0 °C: the part is cold.").AfterMinutes(6)
            .Raise("m2", "The part is 22.0 °C, the scale 20.0 °C: the part is warm.").AfterMinutes(1);
        Assert.Equal([Opened, Edited], script.Kinds);
    }

    [Fact]
    public void One_that_comes_back_within_a_minute_goes_on_as_the_same()
    {
        var script = Begin().Raise("m4").AfterMinutes(5).Clear("m4").AfterSeconds(50).Raise("m4").AfterMinutes(5).Clear("m4").AfterMinutes(2);
        Assert.Equal([Opened, Closed], script.Kinds);
    }

    [Fact]
    public void One_that_chatters_is_told_once_with_its_count_and_once_as_over()
    {
        var script = Begin();
        for (var n = 0; n < 12; n++)
        {
            script.Raise("m4").AfterSeconds(5).Clear("m4").AfterSeconds(5);
        }

        script.AfterMinutes(10);
        Assert.Equal([Opened, Closed], script.Kinds);
        Assert.Contains("It comes and goes: 3 times so far. Further ones are counted, not told.", script.Said[0].Lines);
        Assert.Contains("It comes and goes: 12 times so far. Further ones are counted, not told.", script.Said[1].Lines);
    }

    [Fact]
    public void Two_activations_in_a_minute_do_not_chatter()
    {
        var script = Begin().Raise("m4").AfterSeconds(5).Clear("m4").AfterSeconds(5).Raise("m4").AfterMinutes(2);
        Assert.DoesNotContain(script.Said[0].Lines, line => line.Contains("comes and goes", StringComparison.Ordinal));
    }

    [Fact]
    public void Beyond_the_most_in_an_hour_messages_wait_for_one_digest()
    {
        var script = Begin(NoticeScript.Rules with { MostPerHour = 3 });
        foreach (var n in Enumerable.Range(1, 8))
        {
            script.Raise($"m{n}", $"Reason {(char)('a' + n)}.").AfterSeconds(30);
        }

        Assert.Equal([Opened, Opened, Opened], script.Kinds);
        script.AfterMinutes(60);
        Assert.Equal(Digest, script.Said[3].Kind);
        Assert.Equal(8, script.Said[3].AffectedJobs); // the follow-ups of the first three are owed too
        Assert.Equal(5, script.Said[3].Opens.Count);
    }

    [Fact]
    public void High_priority_passes_the_limit_of_the_others_up_to_twice()
    {
        var script = Begin(NoticeScript.Rules with { MostPerHour = 1 }).Raise("m1", "Reason a.").AfterSeconds(30);
        foreach (var reason in "bcd")
        {
            script.Raise($"m{reason}", $"Reason {reason}.", AlertPriority.High).AfterSeconds(30);
        }

        Assert.Equal(2, script.Said.Count);
    }

    [Fact]
    public void One_whose_end_nobody_reports_is_given_up_after_a_day_and_may_be_told_again()
    {
        var script = Begin().Raise("m4").AfterMinutes((24 * 60) + 1);
        Assert.Equal([Opened, FollowedUp, FollowedUp, Closed], script.Kinds);
        Assert.StartsWith("No longer followed: ", script.Said[3].Subject, StringComparison.Ordinal);
        Assert.Equal([Opened], script.Raise("m4").AfterMinutes(1).Kinds.Skip(4));
    }

    [Fact]
    public void A_clearing_of_something_unknown_says_nothing() => Assert.Empty(Begin().Clear("m4").AfterMinutes(5).Said);

    [Fact]
    public void A_clock_stepped_back_an_hour_neither_repeats_nor_delays()
    {
        var policy = new NoticePolicy(NoticeScript.Rules);
        var script = Begin().Raise("m4").AfterMinutes(31);
        var (state, said) = policy.Step(script.State, [], script.Now.AddHours(-1));
        Assert.Empty(said);
        Assert.Equal(script.Now, state.At);
    }

    [Fact]
    public void After_a_restart_it_goes_on_where_it_was()
    {
        var script = Begin().Raise("m4").AfterMinutes(20);
        script.State = NoticeJson.StateFrom(NoticeJson.Of(script.State));
        script.Raise("m4").AfterMinutes(11).Clear("m4").AfterMinutes(2);

        Assert.Equal([Opened, FollowedUp, Closed], script.Kinds);
        Assert.Equal(script.Said[0].Key, script.Said[2].GoesOnFrom);
        Assert.Equal(3, script.Said.Select(notice => notice.Key).Distinct().Count());
    }

    [Fact]
    public void Seven_hundred_causes_at_once_keep_the_memory_bounded()
    {
        var script = Begin();
        foreach (var n in Enumerable.Range(0, 700))
        {
            script.Raise($"m{n}", $"Reason {Convert.ToString(n, 2).Replace('0', 'a').Replace('1', 'b')}.");
        }

        Assert.Equal(500, script.State.Threads.Count);
        Assert.Equal(200, script.State.Uncounted);
    }
}
