using System.Text.Json;
using ClimateGuard.Thermal;

namespace ClimateGuard.Edges.Files;

/// <summary>The result of <c>evaluate</c> as JSON.</summary>
public static class CaseResultJson
{
    /// <summary>The answer for the whole part: that of the feature that most needs a person.</summary>
    /// <param name="risks">The features.</param>
    public static Answer Overall(IReadOnlyList<FeatureRisk> risks)
    {
        ArgumentNullException.ThrowIfNull(risks);
        return risks.Any(risk => risk.Answer == Answer.Hold) ? Answer.Hold
            : risks.Any(risk => risk.Answer == Answer.Measure) ? Answer.Measure
            : Answer.Go;
    }

    /// <summary>One JSON object with the features in the order of the plant file.</summary>
    /// <param name="stated">The case.</param>
    /// <param name="risks">Its features.</param>
    /// <param name="model">The model it was worked out with.</param>
    public static string Text(StatedCase stated, IReadOnlyList<FeatureRisk> risks, ThermalModel model)
    {
        ArgumentNullException.ThrowIfNull(stated);
        ArgumentNullException.ThrowIfNull(risks);
        ArgumentNullException.ThrowIfNull(model);
        var state = model.StateOf(stated.Temperatures);
        var worst = risks.OrderByDescending(risk => risk.Answer).ThenByDescending(risk => risk.Probability).First();
        return JsonSerializer.Serialize(
            new
            {
                machine = stated.Machine.Id,
                part = stated.Part.Number,
                answer = Overall(risks).Word(),
                feature = worst.Feature.Id,
                features = risks.Select((risk, i) => One(
                    risk,
                    model.Effects[i].UncertaintyOf(model, state, (ulong)stated.Cut.Seed),
                    FeatureBudget.Of(risk.Feature, stated.Part.Class))),
            },
            JsonSerializerOptions.Web);
    }

    private static object One(FeatureRisk risk, EffectUncertainty uncertainty, FeatureBudget budget) => new
    {
        feature = risk.Feature.Id,
        effectUm = risk.Now.EffectMicrometres,
        mismatchUm = risk.Now.MismatchMicrometres,
        driftUm = risk.Now.DriftMicrometres,
        uUm = risk.Now.UMicrometres,
        uMonteCarloUm = uncertainty.UMonteCarloMicrometres,
        uProductsUm = uncertainty.ProductsMicrometres,
        interval95Um = (double[])[uncertainty.Interval95.Low, uncertainty.Interval95.High],
        contributions = uncertainty.Contributions.Where(share => share.Micrometres > 0).Select(share => new { label = share.Label, uUm = share.Micrometres }),
        budgetUm = risk.BudgetMicrometres,
        budgetHow = budget.How,
        health = budget.Health(risk.Now.UMicrometres).Ratio,
        probability = risk.Probability,
        answer = risk.Answer.Word(),
        worstUm = risk.Worst.EffectMicrometres,
        worstAfterMinutes = risk.WorstAfter.TotalMinutes,
        worstUncertaintyUm = risk.Worst.UMicrometres,
        minutes = risk.Duration.TotalMinutes,
    };
}
