using ClimateGuard.Edges.Json;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Tests.Watch.Machines;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Json;

/// <summary>Each inspected feature has its prediction as it stood before the cut, not only the one that decided.</summary>
public sealed class FrozenPredictionTests
{
    private static readonly Cell Cell = SmallCell.Of(null, PartClass.Critical, Feature("near", 40), Feature("far", 300));

    [Fact]
    public void The_answer_to_a_request_is_kept_with_every_feature()
    {
        var machine = new WatchedMachine(Cell).Load(startCelsius: 21);
        var answer = machine.Ask("r1");

        var kept = Assert.IsType<AnswerSaid>(ScoreLines.Of(LedgerLines.Of(new RequestAnswered(machine.Now, answer, false))!, Cell));

        Assert.Equal(["far", "near"], kept.Features.Select(feature => feature.Feature).Order());
        Assert.Equal(answer.Features.Single(f => f.Feature == "near").WorstMicrometres, kept.Features.Single(f => f.Feature == "near").EffectMicrometres, 1e-3);
        Assert.Equal(answer.Worst!.Feature, kept.Prediction!.Feature);
        Assert.DoesNotContain("features", System.Text.Encoding.UTF8.GetString(PermitJson.ToUtf8(answer)), StringComparison.Ordinal);
    }

    [Fact]
    public void So_is_an_outlook_that_changed()
    {
        var machine = new WatchedMachine(Cell).Load(startCelsius: 21);

        var kept = Assert.IsType<LevelSaid>(ScoreLines.Of(LedgerLines.Of(new OutlookIssued(machine.Now, machine.Outlook, true))!, Cell));

        Assert.Equal(["far", "near"], kept.Features.Select(feature => feature.Feature).Order());
    }

    [Fact]
    public void A_line_of_an_older_worker_has_the_deciding_feature_alone()
    {
        const string Older = """{"requestId":"r","answer":"go","serial":"S1","operation":"40","feature":"far","worstUm":3,"budgetUm":18,"probability":0.01}""";

        var kept = Assert.IsType<AnswerSaid>(ScoreLines.Of(new LedgerLine(Some.Morning, LedgerKinds.Answer, "M1", Older), Cell));

        Assert.Equal(new FrozenPrediction("far", 3, 18, 0.01), Assert.Single(kept.Features));
    }

    private static Feature Feature(string id, double nominalMillimetres) => new SizeFeature
    {
        Id = id, ToleranceMillimetres = 0.05, Budget = BudgetRule.Absolute(18), FinishDuration = TimeSpan.FromMinutes(20), NominalMillimetres = nominalMillimetres,
    };
}
