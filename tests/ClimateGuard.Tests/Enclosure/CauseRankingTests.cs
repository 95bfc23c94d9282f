using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>Evidence for and against, what is missing, the next check and what an answer changes.</summary>
public sealed class CauseRankingTests
{
    [Fact]
    public void Log_odds_are_prior_plus_evidence_and_a_missing_signal_adds_nothing()
    {
        var prior = CausePriors.Start.LogOdds(F04ValveLeaking.Cause);

        Assert.Equal(prior, Ranked(Seen(F04ValveLeaking.Cause)).Single().LogOdds, 1e-12);
        Assert.Equal(prior + 5 - 2, Ranked(Seen(F04ValveLeaking.Cause, 5, -2)).Single().LogOdds, 1e-12);
    }

    [Fact]
    public void A_symptom_that_one_cause_explains_counts_for_no_other()
    {
        var strong = Seen(F09ChilledWaterWarm.Cause) with { Evidence = [new("warm water", 9, "room warm")] };
        var weak = Seen(F06InsufficientCapacity.Cause) with { Evidence = [new("room warm", 8, "room warm")] };
        var ranked = Ranked(weak, strong);

        Assert.Equal("F09", ranked[0].Assessment.Cause.Id);
        Assert.True(ranked[0].Flagged);
        Assert.False(ranked[1].Flagged);
        Assert.True(Ranked(weak).Single().Flagged);
    }

    [Fact]
    public void None_of_these_is_what_all_causes_leave()
    {
        var ranked = Ranked(Seen(F04ValveLeaking.Cause, 9), Seen(F16DoorOpen.Cause, -4));
        var none = CauseRanking.NoneOfThese(ranked);

        Assert.Equal((1 - ranked[0].Probability) * (1 - ranked[1].Probability), none, 1e-12);
        Assert.InRange(CauseRanking.NoneOfThese(Ranked(Seen(F16DoorOpen.Cause, -4))), 0.99, 1);
    }

    [Fact]
    public void The_quicker_of_two_equal_doubts_is_checked_first_and_the_answer_decides()
    {
        var filter = Seen(F07FilterFouled.Cause, 6.2);
        var capacity = Seen(F06InsufficientCapacity.Cause, 6.2);
        var ranked = Ranked(filter, capacity);
        var best = NextCheck.Of(ranked)[0];

        Assert.Equal("F07", best.Cause.Id); // read the filter pressure, 3 min, before 12 min at the unit
        var after = NextCheck.After(ranked, [new CheckAnswer("F07", Seen: true)]);
        Assert.Equal("F07", after[0].Assessment.Cause.Id);
        Assert.True(after[0].Probability > ranked.Single(f => f.Assessment.Cause.Id == "F07").Probability);
        Assert.False(NextCheck.After(ranked, [new CheckAnswer("F07", Seen: false)]).Single(f => f.Assessment.Cause.Id == "F07").Flagged);
    }

    [Fact]
    public void A_verified_cause_becomes_likelier_the_next_time()
    {
        var taught = CausePriors.Start.Closed("F07").Closed("F07");

        Assert.True(taught.LogOdds(F07FilterFouled.Cause) > CausePriors.Start.LogOdds(F07FilterFouled.Cause));
        Assert.True(taught.LogOdds(F06InsufficientCapacity.Cause) < CausePriors.Start.LogOdds(F06InsufficientCapacity.Cause));
    }

    [Fact]
    public void Every_finding_names_its_source_its_limits_and_its_first_check()
    {
        Assert.Equal(Enumerable.Range(1, 34).Select(n => $"F{n:00}"), Catalogue.All.Select(c => c.Id).Order(StringComparer.Ordinal));
        Assert.All(Catalogue.All, cause =>
        {
            Assert.NotEmpty(cause.Source);
            Assert.NotEmpty(cause.Confounders);
            Assert.NotEmpty(cause.LeastData);
            Assert.InRange(cause.FirstCheck.Minutes, 1, 60);
            Assert.NotEmpty(cause.FirstCheck.Expected);
            Assert.All(cause.Limits, limit => Assert.True(limit.Default > 0 && limit.Source.Length > 0));
        });
    }

    [Fact]
    public void The_plant_file_may_change_a_limit_and_an_unknown_one_is_refused()
    {
        var stated = new Policies { Findings = Limits("F04", "leakKelvin", 0.7) };
        var limits = new FindingLimits(stated);

        Assert.Equal(0.7, limits.Of(F04ValveLeaking.Cause, "leakKelvin"));
        Assert.Equal("plant file", limits.ProvenanceOf(F04ValveLeaking.Cause, "leakKelvin"));
        Assert.StartsWith("default: ", limits.ProvenanceOf(F16DoorOpen.Cause, "minutes"), StringComparison.Ordinal);
        Assert.Empty(FindingLimits.Problems(stated.Findings!));
        Assert.Contains("leakKelvin", FindingLimits.Problems(Limits("F04", "leak", 1)!).Single().Message, StringComparison.Ordinal);
    }

    private static Dictionary<string, IReadOnlyDictionary<string, double>> Limits(string finding, string key, double value) =>
        new() { [finding] = new Dictionary<string, double> { [key] = value } };

    private static IReadOnlyList<Finding> Ranked(params Assessment[] assessments) => CauseRanking.Of(assessments, CausePriors.Start);

    private static Assessment Seen(FaultCause cause, params double[] weights) => new()
    {
        Cause = cause,
        Component = cause.Component,
        Words = cause.Name,
        Evidence = [.. weights.Select((weight, i) => new ClimateGuard.Enclosure.Evidence("seen", weight, $"{cause.Id}/{i}"))],
    };
}
