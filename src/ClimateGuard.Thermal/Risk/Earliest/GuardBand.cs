using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The guard-banded condition of a release: |effect| + k·u within the budget at every moment of the cut (ISO 14253-1).</summary>
internal static class GuardBand
{
    /// <summary>How many moments of the cut are looked at beside its begin.</summary>
    private const int Moments = 12;

    /// <summary>Whether all features keep the condition over their own cut and the margin after it.</summary>
    /// <param name="model">The model.</param>
    /// <param name="start">The state at the start; it is changed.</param>
    /// <param name="cut">The cut; its air counts from the time of the question.</param>
    /// <param name="beginMinutes">When it starts, from the time of the question.</param>
    /// <param name="margin">Time after the end.</param>
    /// <param name="k">Guard factor.</param>
    public static bool Holds(ThermalModel model, ThermalState start, CutAhead cut, double beginMinutes, TimeSpan margin, double k)
    {
        TimeSpan[] durations = [.. model.Effects.Select(effect => FinishCutRisk.Duration(effect, cut) + margin)];
        var step = durations.Max() / Moments;
        var between = model.Effects.Any(effect => effect.Geometry.DriftCountsFromCutStart) ? start.Copy() : null;
        if (between is not null)
        {
            model.ProbeDatum(between, [Axis.X, Axis.Y, Axis.Z]);
        }

        for (var moment = 0; moment <= Moments; moment++)
        {
            if (moment > 0)
            {
                var from = beginMinutes + ((moment - 1) * step.TotalMinutes);
                cut.Advance(model, start, from, step);
                if (between is not null)
                {
                    cut.Advance(model, between, from, step);
                }
            }

            for (var f = 0; f < durations.Length; f++)
            {
                var effect = model.Effects[f];
                if (step * moment < durations[f] + step)
                {
                    var at = effect.DuringCut(model, effect.Geometry.DriftCountsFromCutStart ? between! : start);
                    if (Math.Abs(at.EffectMicrometres) + (k * at.UMicrometres) > effect.BudgetMicrometres)
                    {
                        return false;
                    }
                }
            }
        }

        return true;
    }
}
