using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>How the features of a part stand over the whole of a finish cut that would start now.</summary>
public static class FinishCutRisk
{
    /// <summary>Standard uncertainty of a contact temperature or its equal by a span probe, in K (common practice, no source).</summary>
    public const double QuickTemperatureKelvins = 0.05;

    /// <summary>How many steps the expected trail has.</summary>
    public const int TrailSteps = 12;

    /// <summary>Works out the risk of each feature.</summary>
    /// <param name="model">The model of the machine with a part.</param>
    /// <param name="state">The state at the begin of the cut; it is not changed.</param>
    /// <param name="cut">The cut and what surrounds it.</param>
    /// <param name="policies">Limits and guard factor.</param>
    /// <returns>One for each feature, in the order of the plant file; empty when nothing is loaded.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A duration is not positive, a temperature in use not finite, or too few or many paths are asked.</exception>
    public static IReadOnlyList<FeatureRisk> Over(ThermalModel model, ThermalState state, CutAhead cut, Policies policies)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(cut);
        ArgumentNullException.ThrowIfNull(policies);
        if (model.Part is null)
        {
            return [];
        }

        var durations = model.Effects.Select(effect => Duration(effect, cut)).ToArray();
        var probabilities = new double[durations.Length];
        FastCutPaths.Exceedance(model, state, cut, durations, probabilities);
        return [.. model.Effects.Select((effect, i) => Risk(model, state, cut, policies, effect, durations[i], probabilities[i]))];
    }

    internal static TimeSpan Duration(FeatureModel effect, CutAhead cut)
    {
        var duration = cut.Planned ?? effect.Feature.FinishDuration;
        return duration > TimeSpan.Zero && duration <= TimeSpan.FromHours(48)
            ? duration
            : throw new ArgumentOutOfRangeException(nameof(cut), duration, "A cut takes more than no time and at most 48 h.");
    }

    private static FeatureRisk Risk(
        ThermalModel model, ThermalState state, CutAhead cut, Policies policies, FeatureModel effect, TimeSpan duration, double probability)
    {
        var trail = Trail(model, state, cut, effect, duration);
        var worst = 0;
        for (var i = 1; i < trail.Length; i++)
        {
            worst = Math.Abs(trail[i].EffectMicrometres) > Math.Abs(trail[worst].EffectMicrometres) ? i : worst;
        }

        var left = UncertaintyAfterMeasuring(model, state, effect);
        return new FeatureRisk
        {
            Feature = effect.Feature,
            Now = trail[0],
            Trail = trail,
            WorstIndex = worst,
            Duration = duration,
            BudgetMicrometres = effect.BudgetMicrometres,
            Probability = probability,
            UAfterMeasurementMicrometres = left,
            Answer = AnswerRule.For(policies, trail, trail[worst], effect.BudgetMicrometres, probability, left),
        };
    }

    private static FeatureEffect[] Trail(ThermalModel model, ThermalState state, CutAhead cut, FeatureModel effect, TimeSpan duration)
    {
        var moving = state.Copy();
        var trail = new FeatureEffect[TrailSteps + 1];
        var step = duration / TrailSteps;
        if (effect.Geometry.DriftCountsFromCutStart)
        {
            model.ProbeDatum(moving, [Axis.X, Axis.Y, Axis.Z]);
        }

        trail[0] = effect.DuringCut(model, moving);
        for (var i = 1; i <= TrailSteps; i++)
        {
            cut.Advance(model, moving, (i - 1) * step.TotalMinutes, step);
            trail[i] = effect.DuringCut(model, moving);
        }

        return trail;
    }

    /// <summary>The datum probed again and the part's temperature taken: what both leave of the uncertainty.</summary>
    private static double UncertaintyAfterMeasuring(ThermalModel model, ThermalState state, FeatureModel effect)
    {
        var after = state.Copy();
        model.ProbeDatum(after, [Axis.X, Axis.Y, Axis.Z]);
        model.ObserveContact(after, model.SurfaceTemperature(after), new Kelvins(QuickTemperatureKelvins));
        model.ObserveScale(after, new Celsius(after[StateLayout.Scale]), new Kelvins(QuickTemperatureKelvins));
        return effect.At(model, after).UMicrometres;
    }
}
