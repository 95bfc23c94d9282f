using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What the expected trail alone says of the probability of an exceedance: never less than one number, never more than another.</summary>
/// <remarks>
/// Lower: the largest probability of a single moment, for a path that is out at a moment is out. Upper: the sum over the moments
/// (Bonferroni), doubled for what may happen between them (reflection). Each deviation is first stretched or shrunk by <see cref="Caution"/>,
/// because a trail knows nothing of the skew of an uncertain time constant nor of the forecast's own error: so the bounds are wide, and useful
/// only where the answer is plain. Equality by members; immutable.
/// </remarks>
/// <param name="Lower">The probability is not below this, in [0, 1].</param>
/// <param name="Upper">The probability is not above this, in [0, 1].</param>
public readonly record struct ExceedanceBound(double Lower, double Upper)
{
    /// <summary>By how much a trail may understate or overstate the uncertainty (found by trying on random cuts; no source).</summary>
    public const double Caution = 1.6;

    /// <summary>The bounds for one feature.</summary>
    /// <param name="trail">The effect expected over the cut, at even steps, one or more.</param>
    /// <param name="budgetMicrometres">Budget, in µm, positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">The trail is empty or the budget not positive.</exception>
    public static ExceedanceBound Of(IReadOnlyList<FeatureEffect> trail, double budgetMicrometres)
    {
        ArgumentNullException.ThrowIfNull(trail);
        ArgumentOutOfRangeException.ThrowIfZero(trail.Count, nameof(trail));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(budgetMicrometres);
        var (lower, upper) = (0.0, 0.0);
        foreach (var moment in trail)
        {
            // How many deviations the budget is away; below zero when the expectation is already out.
            var away = budgetMicrometres - Math.Abs(moment.EffectMicrometres);
            var u = Math.Max(moment.UMicrometres, 1e-12);
            lower = Math.Max(lower, Above(away > 0 ? away / u * Caution : away / u / Caution));
            upper += 4 * Above(away > 0 ? away / u / Caution : away / u * Caution);
        }

        return new(lower, Math.Min(1, upper));
    }

    /// <summary>Whether both bounds lie on the same side of every limit of the policies, so that no paths are needed.</summary>
    /// <param name="limits">The limits.</param>
    public bool Decides(ProbabilityLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var (lower, upper) = (Lower, Upper);
        return !((ReadOnlySpan<double>)[limits.Watch, limits.Measure, limits.Hold, limits.ReleaseHold, limits.ReleaseMeasure])
            .ToArray().Any(limit => lower <= limit && limit <= upper);
    }

    private static double Above(double deviations) => 0.5 * MathNet.Numerics.SpecialFunctions.Erfc(deviations / Math.Sqrt(2));
}
