using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>How the coming cut stands with the offset that a setter has set.</summary>
internal sealed record OffsetView(StandingOffset Set, Prospect? Prospect, bool Fits, FeatureOutlook Worst)
{
    public Level Level => Worst.Level;

    public static OffsetView Of(Cell cell, Machine machine, ThermalModel model, MachineState state, Evaluation evaluation, Prospect? kept = null)
    {
        var policies = state.Over(cell.Description.Policies);
        var prospect = kept ?? Prospect.Of(cell, machine, model, state, evaluation);
        var fits = state.Offset!.Fits(prospect?.Offset, model.Part!, policies.GuardFactor);
        return new OffsetView(state.Offset, prospect, fits, fits ? With(prospect!.Offset!, evaluation, policies) : Without(evaluation));
    }

    public IReadOnlyList<string> Actions(MachineState state) =>
        state.Cut is not null ? [Fits ? "The cut runs with the offset; nothing to do." : "Let the running cut finish; do not start the next group."]
        : Fits ? ["Start the finish cut with the offset that is set."]
        : [Prospect?.Offset is { } proposed ? $"The offset no longer fits: {ActionWords.Of(proposed)}" : "Take the offset off: it no longer fits, and no other is known well enough."];

    public string Cause() => Fits
        ? FormattableString.Invariant($"With the offset that {Set.By} has set: scale {Set.ScaleFactor:0.000000} about the datum.")
        : Reason();

    public string Reason() => Fits
        ? FormattableString.Invariant(
            $"With the offset that {Set.By} has set (scale {Set.ScaleFactor:0.000000}): {Words.Micrometres(Worst.WorstMicrometres)} at most are expected, budget {Words.Micrometres(Worst.BudgetMicrometres)}.")
        : $"The offset that {Set.By} has set was for other temperatures than those of now.";

    private static FeatureOutlook With(ProposedOffset proposed, Evaluation evaluation, Policies policies) =>
        evaluation.Features.First(feature => feature.Feature == proposed.Feature) with
        {
            EffectMicrometres = proposed.EffectMicrometres,
            DriftMicrometres = 0,
            MismatchMicrometres = proposed.EffectMicrometres,
            UMicrometres = proposed.UMicrometres,
            Probability = proposed.Probability,
            WorstMicrometres = proposed.EffectMicrometres,
            Level = proposed.Probability >= policies.Probability.Watch ? Level.Watch : Level.Ready,
            TrailMicrometres = [],
        };

    // What it would be without the offset says little of what it would be with one that does not fit: only that somebody must look.
    private static FeatureOutlook Without(Evaluation evaluation) => evaluation.WorstFeature with { Level = Level.MeasureFirst };
}
