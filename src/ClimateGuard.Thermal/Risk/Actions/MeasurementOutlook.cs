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
            total += weight;
            holds += Exceeds(what, shown, minutes) ? weight : 0;
            starts += GuardBand.Holds(what.Model, shown, what.Cut, minutes, TimeSpan.Zero, what.Question.Policies.GuardFactor) ? weight : 0;
        }

        var left = what.Model.Effects.First(effect => effect.Feature.Id == unmeasured.Feature).At(what.Model, after).UMicrometres;
        return new(new(starts / total, holds / total, unmeasured.Worst.UMicrometres, left), expected);
    }

    /// <summary>A certain exceedance of some feature at the begin of the cut, or at its end for the features that take longest.</summary>
    private static bool Exceeds(WhatIf what, ThermalState begin, double minutes)
    {
        var longest = what.Model.Effects.Max(effect => FinishCutRisk.Duration(effect, what.Cut));
        if (what.Model.Effects.Any(effect => IsCertainlyOut(what, effect, begin)))
        {
            return true;
        }

        var end = begin.Copy();
        what.SpendCutting(end, minutes, longest.TotalMinutes);
        return what.Model.Effects.Any(effect => FinishCutRisk.Duration(effect, what.Cut) == longest && IsCertainlyOut(what, effect, end));
    }

    private static bool IsCertainlyOut(WhatIf what, FeatureModel model, ThermalState state)
    {
        if (model.Geometry.DriftCountsFromCutStart)
        {
            return false;
        }

        var effect = model.At(what.Model, state);
        return Math.Abs(effect.EffectMicrometres) - (what.Question.Policies.GuardFactor * effect.UMicrometres) > model.BudgetMicrometres;
    }
}
