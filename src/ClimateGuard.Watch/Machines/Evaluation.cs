using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>How the coming cut of a machine computes at one moment, before any timing.</summary>
internal sealed record Evaluation
{
    /// <summary>How long after its end a cut that ends a hold must still be safe (common practice, no source).</summary>
    public static readonly TimeSpan ReleaseMargin = TimeSpan.FromMinutes(15);

    public required IReadOnlyList<FeatureRisk> Risks { get; init; }

    public required IReadOnlyList<FeatureOutlook> Features { get; init; }

    public required int Worst { get; init; }

    public required bool ReleasesHold { get; init; }

    public required bool ReleasesMeasure { get; init; }

    public Level Level => Features[Worst].Level;

    public FeatureRisk WorstRisk => Risks[Worst];

    public FeatureOutlook WorstFeature => Features[Worst];

    /// <summary>The question that a job or a request asks.</summary>
    public static CutAhead Cut(Machine machine, MachineState state, TimeSpan? planned) => new()
    {
        Surroundings = Around.Of(machine, state, state.At),
        WetFor = Around.WetLeft(state, state.At),
        Planned = planned ?? state.Job!.Planned,
        AirCelsius = state.AirAhead?.After(state.At, state.Climate.AirCelsius) ?? [],
        AirSpreadKelvins = state.AirAhead?.SpreadKelvinsAt(state.At),
        Seed = SeedOf(machine, state.Job!),
    };

    /// <summary>Works it out.</summary>
    /// <param name="model">The model of the machine with its part.</param>
    /// <param name="state">The state.</param>
    /// <param name="cut">The cut.</param>
    /// <param name="policies">The limits.</param>
    /// <param name="feature">Only this feature, or null for all.</param>
    public static Evaluation Of(ThermalModel model, MachineState state, CutAhead cut, Policies policies, string? feature = null)
    {
        var risks = FinishCutRisk.Over(model, state.Thermal!, cut, policies).Where(risk => feature is null || risk.Feature.Id == feature).ToArray();
        var features = risks.Select(risk => ToOutlook(risk, policies)).ToArray();
        var worst = IndexOfWorst(features);
        return new Evaluation
        {
            Risks = risks,
            Features = features,
            Worst = worst,
            ReleasesHold = features[worst].Level is Level.Ready or Level.Watch or Level.MeasureFirst
                && ReleasesAfterMargin(model, state, cut, policies, feature),
            ReleasesMeasure = risks.All(risk => risk.Probability <= policies.Probability.ReleaseMeasure),
        };
    }

    private static bool ReleasesAfterMargin(ThermalModel model, MachineState state, CutAhead cut, Policies policies, string? feature)
    {
        if (state.Timing.Shown != Level.Hold && state.Permits.Latch is null)
        {
            return true;
        }

        var longest = model.Effects.Max(effect => cut.Planned ?? effect.Feature.FinishDuration);
        var withMargin = FinishCutRisk.Over(model, state.Thermal!, cut with { Planned = longest + ReleaseMargin }, policies);
        return withMargin.Where(risk => feature is null || risk.Feature.Id == feature).All(risk =>
            risk.Probability <= policies.Probability.ReleaseHold
            && risk.Trail.All(effect => Math.Abs(effect.EffectMicrometres) + (policies.GuardFactor * effect.UMicrometres) <= risk.BudgetMicrometres));
    }

    private static FeatureOutlook ToOutlook(FeatureRisk risk, Policies policies) => new()
    {
        Feature = risk.Feature.Id,
        EffectMicrometres = risk.Now.EffectMicrometres,
        DriftMicrometres = risk.Now.DriftMicrometres,
        MismatchMicrometres = risk.Now.MismatchMicrometres,
        UMicrometres = risk.Now.UMicrometres,
        BudgetMicrometres = risk.BudgetMicrometres,
        ToleranceMicrometres = risk.Feature.ToleranceMillimetres * 1000,
        Probability = risk.Probability,
        WorstMicrometres = risk.Worst.EffectMicrometres,
        WorstAfter = risk.WorstAfter,
        Level = risk.Answer switch
        {
            Answer.Hold => Level.Hold,
            Answer.Measure => Level.MeasureFirst,
            _ => risk.Probability >= policies.Probability.Watch ? Level.Watch : Level.Ready,
        },
        TrailMicrometres = [.. risk.Trail.Select(effect => effect.EffectMicrometres)],
    };

    private static int IndexOfWorst(IReadOnlyList<FeatureOutlook> features)
    {
        var worst = 0;
        for (var i = 1; i < features.Count; i++)
        {
            worst = IsWorse(features[i], features[worst]) ? i : worst;
        }

        return worst;
    }

    private static bool IsWorse(FeatureOutlook one, FeatureOutlook other) =>
        (one.Level, one.Probability, Math.Abs(one.WorstMicrometres) / one.BudgetMicrometres)
            .CompareTo((other.Level, other.Probability, Math.Abs(other.WorstMicrometres) / other.BudgetMicrometres)) > 0;

    private static int SeedOf(Machine machine, JobLoaded job)
    {
        // The same job gets the same paths each time, on every machine of every make: no string hash of the runtime.
        var seed = 17;
        foreach (var c in machine.Id + "|" + job.Serial + "|" + job.Operation)
        {
            seed = unchecked((seed * 31) + c);
        }

        return seed & int.MaxValue;
    }
}
