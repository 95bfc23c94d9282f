namespace ClimateGuard.Thermal;

/// <summary>What a measurement may show and what each would decide, before it is made (pre-posterior analysis, Raiffa and Schlaifer 1961).</summary>
internal sealed record MeasurementOutlook(MeasurementValue Value, ActionResult AtExpectation)
{
    private const int Outcomes = 25;
    private const double Reach = 3;

    /// <summary>Plays through what the measurement may show, weighted by how likely it is, and asks for each whether the cut could start.</summary>
    /// <param name="what">The situation.</param>
    /// <param name="minutes">How long it takes.</param>
    /// <param name="observe">Takes a reading that lies so far from the expectation into a state.</param>
    public static MeasurementOutlook Of(WhatIf what, double minutes, Func<ThermalState, double, MeasurementOutcome> observe)
    {
        var before = what.Now();
        what.Spend(before, what.Held(0), 0, minutes);
        var after = before.Copy();
        var spread = observe(after, 0).StandardDeviation;
        var expected = what.Start(after, minutes);
        var unmeasured = what.Start(before, minutes);
        var (starts, holds, total) = (0.0, 0.0, 0.0);
        for (var i = 0; i < Outcomes; i++)
        {
            var z = Reach * ((2.0 * i / (Outcomes - 1)) - 1);
            var weight = Math.Exp(-z * z / 2);
            var shown = before.Copy();
            observe(shown, z * spread);
            var risks = Trails(what, shown, minutes);
            total += weight;
            holds += Exceeds(what, risks) ? weight : 0;
            starts += GuardBand.Holds(what.Model, shown, what.Cut, minutes, TimeSpan.Zero, what.Question.Policies.GuardFactor) ? weight : 0;
        }

        var left = what.Model.Effects.First(effect => effect.Feature.Id == unmeasured.Feature).At(what.Model, after).UMicrometres;
        return new(new(starts / total, holds / total, unmeasured.Worst.UMicrometres, left), expected);
    }

    private static FeatureEffect[] Trails(WhatIf what, ThermalState state, double minutes)
    {
        var end = state.Copy();
        what.SpendCutting(end, minutes, what.Model.Effects.Max(effect => FinishCutRisk.Duration(effect, what.Cut).TotalMinutes));
        return [.. what.Model.Effects.Select(effect => effect.At(what.Model, state)), .. what.Model.Effects.Select(effect => effect.At(what.Model, end))];
    }

    /// <summary>A certain exceedance of some feature at the begin of the cut, or at its end for the features that take longest.</summary>
    private static bool Exceeds(WhatIf what, FeatureEffect[] effects)
    {
        var models = what.Model.Effects;
        var longest = models.Max(effect => FinishCutRisk.Duration(effect, what.Cut));
        for (var i = 0; i < effects.Length; i++)
        {
            var model = models[i % models.Count];
            var counted = i < models.Count || FinishCutRisk.Duration(model, what.Cut) == longest;
            var certain = Math.Abs(effects[i].EffectMicrometres) - (what.Question.Policies.GuardFactor * effects[i].UMicrometres);
            if (counted && !model.Geometry.DriftCountsFromCutStart && certain > model.BudgetMicrometres)
            {
                return true;
            }
        }

        return false;
    }
}
