using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>Propose an offset that takes the expected effect off: a scale factor about the datum and a shift of the work offset.</summary>
/// <remarks>Only when the effect is known well (u at most a third of the budget) and the offset is small (at most twice the budget).</remarks>
internal static class Offset
{
    private const double Minutes = 2;
    private static readonly Axis[] Axes = [Axis.X, Axis.Y, Axis.Z];

    public static RankedAction Of(WhatIf what)
    {
        var begin = what.Now();
        what.Spend(begin, what.Held(0), 0, Minutes);
        var end = begin.Copy();
        what.SpendCutting(end, Minutes, what.Model.Effects.Max(effect => FinishCutRisk.Duration(effect, what.Cut).TotalMinutes));

        // In the middle of what is expected over the cut the offset leaves the least on either side.
        var eps = (Mismatch(what.Model, begin) + Mismatch(what.Model, end)) / 2;
        double[] drift = [.. Axes.Select(axis => (what.Model.DriftMicrometres(begin, axis) + what.Model.DriftMicrometres(end, axis)) / 2)];
        var worst = what.Start(begin, Minutes);
        var wellKnown = new ActionCondition(
            ActionConditionKind.EffectWellKnown, worst.Worst.UMicrometres <= worst.BudgetMicrometres / 3, worst.Worst.UMicrometres, worst.BudgetMicrometres / 3);
        var largest = what.Model.Effects.Select(effect => (Size: Size(effect, eps, drift), effect.BudgetMicrometres)).MaxBy(pair => pair.Size / pair.BudgetMicrometres);
        var small = new ActionCondition(ActionConditionKind.OffsetSmall, largest.Size <= 2 * largest.BudgetMicrometres, largest.Size, 2 * largest.BudgetMicrometres);
        var proposed = With(what, begin, eps, drift, 1);
        return new()
        {
            Kind = ActionKind.Offset,
            Takes = TimeSpan.FromMinutes(Minutes),
            Conditions = [wellKnown, small],
            Offset = wellKnown.Met && small.Met
                ? new(1 - (eps * 1e-6), -drift[0], -drift[1], -drift[2], proposed, With(what, begin, eps, drift, -1))
                : null,
            Result = wellKnown.Met && small.Met ? proposed : null,
        };
    }

    private static double Mismatch(ThermalModel model, ThermalState state)
    {
        var effect = model.Effects[0];
        return (effect.ScaleGain * (state[StateLayout.Scale] - model.ReferenceCelsius))
            - (effect.PartGain * (model.PartTemperature(state).Value - model.ReferenceCelsius));
    }

    private static double Size(FeatureModel effect, double eps, double[] drift)
    {
        var counts = effect.Geometry.DriftCountsFromCutStart ? 0 : 1;
        var near = effect.Geometry.Near(eps, counts * drift[0], counts * drift[1], counts * drift[2]);
        return Math.Abs(near.At(eps, counts * drift[0], counts * drift[1], counts * drift[2]));
    }

    /// <summary>How the cut would stand with the offset, or with its signs turned.</summary>
    private static ActionResult With(WhatIf what, ThermalState begin, double eps, double[] drift, int sign)
    {
        var state = begin.Copy();
        for (var axis = 0; axis < 3; axis++)
        {
            // Drift counts from the reference, so shifting the work offset by −D is moving the reference by D.
            state.Mean[what.Model.Layout.Reference(Axes[axis])] += sign * drift[axis];
        }

        var cut = what.Shifted(Minutes);
        TimeSpan[] durations = [.. what.Model.Effects.Select(effect => FinishCutRisk.Duration(effect, cut))];
        var probabilities = new double[durations.Length];
        FastCutPaths.Exceedance(what.Model, state, cut, durations, probabilities, sign * eps);
        var worst = Array.IndexOf(probabilities, probabilities.Max());
        var (effect, guarded) = WorstOf(what, state, worst, durations[worst], sign * eps);
        return new(
            probabilities[worst],
            what.Model.Effects[worst].Feature.Id,
            effect,
            what.Model.Effects[worst].BudgetMicrometres,
            guarded && probabilities[worst] <= what.Question.Policies.Probability.ReleaseHold);
    }

    private static (FeatureEffect Effect, bool Guarded) WorstOf(WhatIf what, ThermalState state, int feature, TimeSpan duration, double offset)
    {
        var model = what.Model;
        var effect = model.Effects[feature];
        var moving = state.Copy();
        if (effect.Geometry.DriftCountsFromCutStart)
        {
            model.ProbeDatum(moving, Axes);
        }

        var worst = default(FeatureEffect);
        var guarded = true;
        for (var moment = 0; moment <= FinishCutRisk.TrailSteps; moment++)
        {
            var stretch = (duration / FinishCutRisk.TrailSteps).TotalMinutes;
            what.SpendCutting(moving, Minutes + ((moment - 1) * stretch), moment == 0 ? 0 : stretch);
            var left = effect.DuringCut(model, moving, offset);
            worst = Math.Abs(left.EffectMicrometres) >= Math.Abs(worst.EffectMicrometres) ? left : worst;
            guarded &= Math.Abs(left.EffectMicrometres) + (what.Question.Policies.GuardFactor * left.UMicrometres) <= effect.BudgetMicrometres;
        }

        return (worst, guarded);
    }
}
