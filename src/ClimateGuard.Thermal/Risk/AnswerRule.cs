using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>From the effect over a cut to go, measure or hold.</summary>
/// <remarks>
/// Hold: a certain exceedance, |effect| − k·u above the budget (guard band, ISO 14253-1; decision by probability, JCGM 106), or a probability
/// of <see cref="ProbabilityLimits.Hold"/> and more when the effect is well known (u/B at most 1/6) or nothing quick could settle it.
/// Measure: any other probability of <see cref="ProbabilityLimits.Measure"/> and more. Go: the rest.
/// </remarks>
public static class AnswerRule
{
    /// <summary>With u/B at or below this the effect is known well enough that measuring would not change the answer.</summary>
    public const double WellKnown = 1.0 / 6.0;

    /// <summary>The answer for one feature.</summary>
    /// <param name="policies">Limits and guard factor.</param>
    /// <param name="trail">The effect expected over the cut.</param>
    /// <param name="worst">The largest of them in magnitude.</param>
    /// <param name="budgetMicrometres">Budget, in µm, positive.</param>
    /// <param name="probability">Probability of an exceedance during the cut.</param>
    /// <param name="uAfterMeasurementMicrometres">Uncertainty left after the best quick measurement, in µm.</param>
    public static Answer For(
        Policies policies,
        IReadOnlyList<FeatureEffect> trail,
        FeatureEffect worst,
        double budgetMicrometres,
        double probability,
        double uAfterMeasurementMicrometres)
    {
        ArgumentNullException.ThrowIfNull(policies);
        ArgumentNullException.ThrowIfNull(trail);
        var k = policies.GuardFactor;
        if (trail.Any(effect => Math.Abs(effect.EffectMicrometres) - (k * effect.UMicrometres) > budgetMicrometres))
        {
            return Answer.Hold;
        }

        if (probability < policies.Probability.Measure)
        {
            return Answer.Go;
        }

        var couldBeMeasured = k * uAfterMeasurementMicrometres < budgetMicrometres
            && uAfterMeasurementMicrometres < 0.8 * worst.UMicrometres;
        var settled = worst.UMicrometres / budgetMicrometres <= WellKnown || !couldBeMeasured;
        return probability >= policies.Probability.Hold && settled ? Answer.Hold : Answer.Measure;
    }
}
