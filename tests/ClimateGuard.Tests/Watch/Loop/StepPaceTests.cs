using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Loop;

/// <summary>Machines are stepped by the clock, however fast the rounds come.</summary>
public sealed class StepPaceTests
{
    private static readonly TimeSpan Least = TimeSpan.FromMilliseconds(250);

    [Fact]
    public void Each_machine_is_stepped_once_in_the_time_and_not_with_each_round()
    {
        var pace = new StepPace(3, Least);
        Assert.Equal([0, 1, 2], pace.DueAt(Some.Morning));
        for (var milliseconds = 1; milliseconds < 250; milliseconds++)
        {
            Assert.Empty(pace.DueAt(Some.Morning.AddMilliseconds(milliseconds)));
        }

        Assert.Equal([0, 1, 2], pace.DueAt(Some.Morning.AddMilliseconds(250)).Order());
    }

    [Fact]
    public void Of_many_machines_a_round_takes_some_and_the_next_rounds_the_others()
    {
        var pace = new StepPace(500, Least);
        var stepped = new List<int>();
        for (var round = 0; round < 8; round++)
        {
            var due = pace.DueAt(Some.Morning.AddMilliseconds(round));
            Assert.InRange(due.Count, 1, 64);
            stepped.AddRange(due);
        }

        Assert.Equal(Enumerable.Range(0, 500), stepped.Order());
        Assert.Empty(pace.DueAt(Some.Morning.AddMilliseconds(9)));
    }

    [Fact]
    public void After_the_clock_was_set_back_no_machine_waits_for_the_old_time_to_come_again()
    {
        var pace = new StepPace(2, Least);
        pace.DueAt(Some.Morning);
        Assert.True(pace.WantsSnapshotAt(Some.Morning));
        pace.AfterClockStep();
        Assert.Equal(2, pace.DueAt(Some.Morning.AddHours(-1)).Count);
        Assert.True(pace.WantsSnapshotAt(Some.Morning.AddHours(-1)));
    }

    [Fact]
    public void Without_a_least_time_every_round_steps_all()
    {
        var pace = new StepPace(2, TimeSpan.Zero);
        Assert.Equal(2, pace.DueAt(Some.Morning).Count);
        Assert.Equal(2, pace.DueAt(Some.Morning).Count);
    }
}
