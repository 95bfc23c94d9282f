using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Scoreboard;

/// <summary>The hold threshold goes up by itself when too few holds are confirmed, and comes down only by a person (common practice, no source).</summary>
public sealed class HoldThresholdTests
{
    private static readonly Policies Policies = new();

    [Theory]
    [InlineData(14, 0.3)]
    [InlineData(13, 0.4)]
    public void Twenty_decided_holds_with_fewer_than_fourteen_right_raise_it_to_the_next_value(int confirmed, double expected)
    {
        var threshold = After(HoldThreshold.Of(Policies), confirmed, 20 - confirmed);

        Assert.Equal(expected, threshold.InForce);
        Assert.Equal(expected, threshold.Over(Policies).Probability.Hold);
    }

    [Fact]
    public void Nineteen_say_nothing_yet_undecided_ones_do_not_count_and_the_count_begins_anew_after_it_moved()
    {
        var threshold = After(HoldThreshold.Of(Policies), 0, 19).After(HoldVerdict.Undecided, Policies.HoldGrid);
        Assert.Equal(0.3, threshold.InForce);

        threshold = threshold.After(HoldVerdict.Refuted, Policies.HoldGrid);
        Assert.Equal(0.4, threshold.InForce);
        Assert.Equal(0.4, After(threshold, 0, 19).InForce);
        Assert.Equal(0.5, After(threshold, 0, 20).InForce);
    }

    [Fact]
    public void It_stops_at_the_end_of_the_grid_and_never_moves_without_one()
    {
        Assert.Equal(0.6, After(HoldThreshold.Of(Policies), 0, 200).InForce);
        Assert.Equal(0.3, After(HoldThreshold.Of(Policies), 0, 200, []).InForce);
    }

    [Fact]
    public void Another_threshold_in_the_plant_file_begins_anew_and_the_same_one_does_not()
    {
        var raised = After(HoldThreshold.Of(Policies), 0, 20);

        Assert.Equal(0.4, raised.Under(Policies with { GuardFactor = 2 }).InForce);
        Assert.Equal(0.35, raised.Under(Policies with { Probability = Policies.Probability with { Hold = 0.35 } }).InForce);
    }

    [Fact]
    public void The_cell_tells_it_keeps_it_over_a_restart_and_a_person_sets_it_back()
    {
        var cell = SmallCell.Of();
        var loop = new EventTimeLoop(cell, "1", Told.At(0));
        var decisions = TwentyRefutedHolds(loop);

        var moved = Assert.Single(decisions.OfType<HoldThresholdMoved>());
        Assert.Equal((0.3, 0.4), (moved.From, moved.To));
        Assert.Contains("\"to\":0.4", LedgerLines.Of(moved)!.Json, StringComparison.Ordinal);
        Assert.Contains(decisions.OfType<AlertRaised>(), raised => raised.Alert is { Cause: "hold threshold", Cleared: false });

        var restarted = new EventTimeLoop(cell, "1", Told.At(1000));
        restarted.GoOn(loop.Remembered().Select(state => MachineStateJson.Read(MachineStateJson.Text(state)).State!));
        Assert.All(restarted.Remembered(), state => Assert.Equal(0.4, state.Threshold!.InForce));

        var reset = restarted.Step(Told.At(1001), new PolicyReset(Told.At(1001), "B. Cole"));
        Assert.Equal((0.4, 0.3), reset.OfType<HoldThresholdMoved>().Select(one => (one.From, one.To)).Single());
        Assert.All(restarted.Remembered(), state => Assert.Equal(0.3, state.Threshold!.InForce));
    }

    private static List<Decision> TwentyRefutedHolds(EventTimeLoop loop)
    {
        var decisions = new List<Decision>();
        for (var part = 0; part < 20; part++)
        {
            var at = Told.At(10 + (part * 10));
            foreach (var sensor in new[] { 0, 1, 2 })
            {
                loop.Take(new Reading(sensor, at.ToUnixTimeMilliseconds(), 20), live: true);
            }

            decisions.AddRange(loop.Step(at, new JobLoaded(at, "M1") { Serial = $"S{part}", Part = "D-1", Operation = "40", Start = new Celsius(26), StartUncertainty = new Kelvins(0.5) }));
            decisions.AddRange(loop.Step(at.AddMinutes(1), new ContactMeasured(at.AddMinutes(1), "M1") { Value = new Celsius(20), Uncertainty = new Kelvins(0.02) }));
        }

        return decisions;
    }

    private static HoldThreshold After(HoldThreshold threshold, int confirmed, int refuted, IReadOnlyList<double>? grid = null)
    {
        foreach (var verdict in Enumerable.Repeat(HoldVerdict.Confirmed, confirmed).Concat(Enumerable.Repeat(HoldVerdict.Refuted, refuted)))
        {
            threshold = threshold.After(verdict, grid ?? Policies.HoldGrid);
        }

        return threshold;
    }
}
