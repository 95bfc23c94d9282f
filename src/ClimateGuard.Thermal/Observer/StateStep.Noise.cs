namespace ClimateGuard.Thermal;

internal sealed partial class StateStep
{
    /// <summary>
    /// Lets the sensitivities wander. Not part of <see cref="Apply"/>: over a cut it is nothing, and the paths of a cut take them as fixed;
    /// between two checks a week apart it is what keeps the observer from becoming deaf.
    /// </summary>
    public void Wander(ThermalState state, in Surroundings surroundings, double seconds)
    {
        if (wanderPerSecond == 0)
        {
            return;
        }

        var n = state.Count;
        var p = state.Covariance;
        var factors = FactorsOf(seconds, stackalloc double[FactorCount]);
        var air = surroundings.AirCelsius + state[StateLayout.AirOffset] - referenceCelsius;
        for (var mode = 0; mode < modes.Length; mode++)
        {
            var dynamics = modes[mode];
            if (dynamics.RelativeUncertainty == 0)
            {
                continue;
            }

            var (m, r) = (StateLayout.Displacement(mode), StateLayout.SensitivityError(mode));
            var full = dynamics.GainMicrometres * (dynamics.DrivenBySpindle ? surroundings.SpindleLoad : air);
            var (once, twice) = (factors[FirstOfModes + (OfMode * mode) + ModeOnce], factors[FirstOfModes + (OfMode * mode) + ModeTwice]);
            var variance = wanderPerSecond * seconds;
            p[(r * n) + r] += variance;
            p[(m * n) + r] += variance * full * once;
            p[(r * n) + m] = p[(m * n) + r];
            p[(m * n) + m] += variance * full * full * twice;
        }
    }

    /// <summary>Means over a step of a = 1 − exp(−u/τ) and of a²: how far a random walk has come through a first-order mode.</summary>
    private static (double Once, double Twice) Arrived(double ratio)
    {
        if (ratio < 1e-3)
        {
            return ((ratio / 2) - (ratio * ratio / 6), (ratio * ratio / 3) - (ratio * ratio * ratio / 4));
        }

        var once = Fading(ratio) / ratio;
        return (1 - once, 1 - (2 * once) + (Fading(2 * ratio) / (2 * ratio)));
    }

    /// <summary>
    /// What was learned of the surroundings of the scale fades at the rate b while the scale follows it at the rate a, and new comes in as white
    /// noise of 2·b·σ²: with h(u) = a/(a − b)·(exp(−b·u) − exp(−a·u)) the exact variances are the integrals of exp(−2·b·u), exp(−b·u)·h and h².
    /// Not part of <see cref="FollowAll"/>: over a cut it stays.
    /// </summary>
    private static void FadeScaleOffset(in Transition transition, ThermalState state, ReadOnlySpan<double> factors)
    {
        state.Mean[StateLayout.Scale] += factors[OffsetFades] * state.Mean[StateLayout.ScaleOffset];
        transition.Add(StateLayout.Scale, StateLayout.ScaleOffset, factors[OffsetFades]);
        state.Mean[StateLayout.ScaleOffset] *= factors[OffsetKeep];
        transition.Begin(StateLayout.ScaleOffset, factors[OffsetKeep]);
    }

    private void AddScaleOffsetNoise(ThermalState state, ReadOnlySpan<double> factors)
    {
        var (a, b) = (1 / scaleSeconds, 1 / scaleOffsetSeconds);
        var (own, mixed, scale) = (factors[OffsetOwn], factors[OffsetMixed], factors[OffsetScale]);
        var (strength, gain) = (2 * b * ScaleOffsetVariance, a / (a - b));
        var (n, p) = (state.Count, state.Covariance);
        p[(StateLayout.ScaleOffset * n) + StateLayout.ScaleOffset] += strength * own;
        p[(StateLayout.Scale * n) + StateLayout.Scale] += strength * gain * gain * Math.Max(0, own - (2 * mixed) + scale);
        p[(StateLayout.Scale * n) + StateLayout.ScaleOffset] += strength * gain * (own - mixed);
        p[(StateLayout.ScaleOffset * n) + StateLayout.Scale] = p[(StateLayout.Scale * n) + StateLayout.ScaleOffset];
    }

    private void AddNoise(ThermalState state, Medium medium, double logTimeConstant, double seconds, ReadOnlySpan<double> factors)
    {
        var n = state.Count;
        var p = state.Covariance;
        p[(StateLayout.Scale * n) + StateLayout.Scale] += scaleVariance * factors[ScaleNoise];
        if (response is not null)
        {
            var (first, second, both) = PartNoise(medium, logTimeConstant, seconds);
            p[(StateLayout.PartFirst * n) + StateLayout.PartFirst] += first;
            p[(StateLayout.PartSecond * n) + StateLayout.PartSecond] += second;
            p[(StateLayout.PartFirst * n) + StateLayout.PartSecond] += both;
            p[(StateLayout.PartSecond * n) + StateLayout.PartFirst] += both;
        }

        for (var axis = 0; axis < 3; axis++)
        {
            var reference = layout.FirstReference + axis;
            p[(reference * n) + reference] += driftVariancePerSecond[axis] * seconds;
        }
    }

    /// <summary>One white noise drives both nodes; its strength gives the first node its long-term standard deviation.</summary>
    private (double First, double Second, double Both) PartNoise(Medium medium, double logTimeConstant, double seconds)
    {
        var pair = response![medium];
        var faster = Math.Exp(-logTimeConstant);
        var one = faster * ((1 / pair.FirstSeconds) + response.PalletRate);
        var other = faster * ((1 / pair.SecondSeconds) + response.PalletRate);
        var strength = 2 * partVariance * one;
        return (
            strength * Fading(2 * one * seconds) / (2 * one),
            strength * Fading(2 * other * seconds) / (2 * other),
            strength * Fading((one + other) * seconds) / (one + other));
    }
}
