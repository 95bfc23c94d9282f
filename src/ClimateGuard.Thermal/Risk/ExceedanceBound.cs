using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>What the expected course alone says of the probability of an exceedance: never below one number, never above another.</summary>
/// <remarks>
/// Lower: the largest probability of a single moment, for a path that is out at a moment is out. Upper: the sum over the moments
/// (Bonferroni), doubled for what may happen between them (reflection). A deviation of a hole from where it is expected is at most R·|δeps| + |δD|, so
/// a vector is out only if its mismatch or its drift is off by its share. Each deviation is first stretched or shrunk by <see cref="Caution"/>,
/// because a covariance knows nothing of the skew of an uncertain time constant nor of the forecast's own error: so the bounds are wide, and
/// useful only where the answer is plain. Equality by members; immutable.
/// </remarks>
/// <param name="Lower">The probability is not below this, in [0, 1].</param>
/// <param name="Upper">The probability is not above this, in [0, 1].</param>
public readonly record struct ExceedanceBound(double Lower, double Upper)
{
    /// <summary>By how much a covariance may understate or overstate the uncertainty (found by trying random cuts; no source).</summary>
    public const double Caution = 1.6;

    /// <summary>The bounds of each feature over a cut that would start now.</summary>
    /// <param name="model">The model of the machine with a part.</param>
    /// <param name="state">The state at the begin; it is not changed.</param>
    /// <param name="cut">The cut and what surrounds it.</param>
    /// <returns>One for each feature; empty when nothing is loaded.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A duration is not positive, or a temperature in use not finite.</exception>
    public static IReadOnlyList<ExceedanceBound> Over(ThermalModel model, ThermalState state, CutAhead cut)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(cut);
        return [.. model.Effects.Select(effect => Of(model, state, cut, effect))];
    }

    /// <summary>Whether both bounds lie on the same side of every limit of the policies, so that no paths are needed.</summary>
    /// <param name="limits">The limits.</param>
    public bool Decides(ProbabilityLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        return Beside(limits.Watch) && Beside(limits.Measure) && Beside(limits.Hold) && Beside(limits.ReleaseHold) && Beside(limits.ReleaseMeasure);
    }

    private bool Beside(double limit) => limit < Lower || limit > Upper;

    private static ExceedanceBound Of(ThermalModel model, ThermalState state, CutAhead cut, FeatureModel effect)
    {
        var around = Spread.Of(model, effect);
        var moving = state.Copy();
        if (effect.Geometry.DriftCountsFromCutStart)
        {
            model.ProbeDatum(moving, [Axis.X, Axis.Y, Axis.Z]);
        }

        var step = FinishCutRisk.Duration(effect, cut) / FinishCutRisk.TrailSteps;
        var (lower, upper) = (0.0, 0.0);
        for (var moment = 0; moment <= FinishCutRisk.TrailSteps; moment++)
        {
            if (moment > 0)
            {
                cut.Advance(model, moving, (moment - 1) * step.TotalMinutes, step);
            }

            var at = effect.DuringCut(model, moving);
            var away = effect.BudgetMicrometres - Math.Abs(at.EffectMicrometres);
            lower = Math.Max(lower, Above(Cautious(away, at.UMicrometres, 1 / Caution)));
            upper += 2 * around.Above(Cautious(away, around.At(moving) ?? at.UMicrometres, Caution));
        }

        return new(lower, Math.Min(1, upper));
    }

    /// <summary>How many deviations the budget is away, with u taken larger by a factor; below zero when the expectation is already out.</summary>
    private static double Cautious(double away, double u, double factor) => away / Math.Max(u, 1e-12) / (away > 0 ? factor : 1 / factor);

    private static double Above(double deviations) => 0.5 * MathNet.Numerics.SpecialFunctions.Erfc(deviations / Math.Sqrt(2));

    /// <summary>How far a vector may be from where it is expected, over all its holes and directions; nothing for a length.</summary>
    private sealed record Spread(ThermalModel? Lengths, double Factor)
    {
        public static Spread Of(ThermalModel model, FeatureModel effect)
        {
            var (radius, factor) = effect.Geometry switch
            {
                not FeatureGeometry.Along when effect.Terms.Count > 0 => (double.PositiveInfinity, 1),
                FeatureGeometry.Along => (0, 0),
                FeatureGeometry.HalfTurn => (0, 4),
                FeatureGeometry.Indexed indexed => (indexed.RadiusMetres, 2),
                FeatureGeometry.Pattern pattern => (pattern.OuterMillimetres.Max(point => point.Radius) * 1e-3, 2),
                _ => (double.PositiveInfinity, 1),
            };
            if (factor == 0)
            {
                return new(null, 0);
            }

            // A shape that is not known here gets no upper bound.
            Feature[] lengths = [Size(double.IsInfinity(radius) ? 0 : radius * 1e3), Depth(Axis.X), Depth(Axis.Y)];
            var part = model.Part! with { Features = lengths };
            return new(
                new ThermalModel(model.Machine, part, model.Noise, new Celsius(model.ReferenceCelsius)), double.IsInfinity(radius) ? radius : factor);
        }

        public double? At(ThermalState state) => Lengths is null ? null : Factor * Math.Max(Sum(state), 1e-12);

        /// <summary>Probability beyond so many deviations: both sides of a length, or mismatch or drift of a vector beyond its share.</summary>
        public double Above(double deviations) => deviations <= 0
            ? 1
            : (2 * ExceedanceBound.Above(deviations)) + (Lengths is null ? 0 : Math.Exp(-deviations * deviations / 2));

        private double Sum(ThermalState state)
        {
            var u = Lengths!.Effects.Select(effect => effect.At(Lengths, state).UMicrometres).ToArray();
            return u[0] + Math.Sqrt((u[1] * u[1]) + (u[2] * u[2]));
        }

        private static SizeFeature Size(double millimetres) => new()
        {
            Id = "mismatch", ToleranceMillimetres = 1, Budget = BudgetRule.Absolute(1), NominalMillimetres = millimetres,
        };

        private static DepthFeature Depth(Axis axis) => new()
        {
            Id = "drift", ToleranceMillimetres = 1, Budget = BudgetRule.Absolute(1), NominalMillimetres = 0, Axis = axis,
        };
    }
}
