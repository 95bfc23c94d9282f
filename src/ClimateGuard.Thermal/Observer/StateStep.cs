using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The exact step of a state under constant surroundings: x ← F·x + b, P ← F·P·Fᵀ + Q, with F sparse.</summary>
/// <remarks>No allocation. Where a product of two numbers drives a third, F is its derivative along the exact path of the means.</remarks>
internal sealed partial class StateStep
{
    private const double SecondsPerWeek = 7 * 24 * 3600;

    private readonly StateLayout layout;
    private readonly ModeDynamics[] modes;
    private readonly PartResponse? response;
    private readonly double scaleSeconds;
    private readonly double scaleRiseKelvins;
    private readonly double fixtureSeconds;
    private readonly double sensorSeconds;
    private readonly double referenceCelsius;
    private readonly double scaleVariance;
    private readonly double scaleOffsetSeconds;
    private readonly double partVariance;
    private readonly double wanderPerSecond;
    private readonly double[] driftVariancePerSecond;

    public StateStep(
        Machine machine, Part? part, PartResponse? response, StateLayout layout, ThermalNoise noise, TimeSpan partSensorLag, double referenceCelsius)
    {
        this.layout = layout;
        modes = [.. layout.Modes];
        this.response = response;
        this.referenceCelsius = referenceCelsius;
        scaleSeconds = Positive(machine.Scale.TimeConstant, $"machine {machine.Id}: the time constant of its scale");
        scaleRiseKelvins = machine.Scale.Screw?.RiseKelvins ?? 0;
        fixtureSeconds = Positive(noise.FixtureTimeConstant, "the time constant of the fixture");
        sensorSeconds = partSensorLag.TotalSeconds;
        foreach (var mode in layout.Modes)
        {
            Positive(TimeSpan.FromSeconds(mode.TimeConstantSeconds), $"machine {machine.Id}: the time constant of a drift mode");
        }

        scaleVariance = (1 - noise.ScaleSlowShare) * noise.ScaleKelvins * noise.ScaleKelvins;
        scaleOffsetSeconds = Apart(Positive(noise.ScaleMemory, "the memory of what surrounds the scale"), scaleSeconds);
        ScaleOffsetArrives = scaleOffsetSeconds / (scaleOffsetSeconds + scaleSeconds);
        ScaleOffsetVariance = noise.ScaleSlowShare * noise.ScaleKelvins * noise.ScaleKelvins / ScaleOffsetArrives;
        partVariance = part is null ? 0 : noise.PartKelvins * noise.PartKelvins;
        wanderPerSecond = noise.SensitivitySharePerRootWeek * noise.SensitivitySharePerRootWeek / SecondsPerWeek;
        driftVariancePerSecond = [.. Enum.GetValues<Axis>().Select(axis => DriftVariance(layout, noise, axis))];
        ofMinute = new double[FactorCount];
        WorkedOut(MinuteSeconds, ofMinute);
    }

    /// <summary>Variance of what surrounds the scale after a long time, in K².</summary>
    public double ScaleOffsetVariance { get; }

    /// <summary>The share of it that has come into the scale after a long time; the rest is on its way.</summary>
    public double ScaleOffsetArrives { get; }

    /// <summary>One step of means and covariances.</summary>
    /// <param name="state">Changed in place.</param>
    /// <param name="surroundings">Constant over the step.</param>
    /// <param name="seconds">Its length.</param>
    /// <param name="overACut">What surrounds the scale stays as it is, as on the paths of a cut.</param>
    public void Apply(ThermalState state, in Surroundings surroundings, double seconds, bool overACut = false)
    {
        Span<double> weights = stackalloc double[state.Count * Transition.MostInRow];
        Span<int> columns = stackalloc int[state.Count * Transition.MostInRow];
        Span<int> counts = stackalloc int[state.Count];
        var transition = new Transition(weights, columns, counts);
        var factors = FactorsOf(seconds, stackalloc double[FactorCount]);
        var logTimeConstant = state[StateLayout.LogTimeConstant];
        FollowAll(transition, state.Mean, surroundings, seconds, factors);
        if (!overACut) FadeScaleOffset(transition, state, factors);
        transition.Apply(state.Covariance, state.Scratch);
        AddNoise(state, surroundings.Medium, logTimeConstant, seconds, factors);
        if (!overACut) AddScaleOffsetNoise(state, factors);
    }

    /// <summary>The step of the numbers alone, without noise; the fast paths read their coefficients from it.</summary>
    public void Follow(double[] values, in Surroundings surroundings, double seconds)
    {
        Span<double> weights = stackalloc double[values.Length * Transition.MostInRow];
        Span<int> columns = stackalloc int[values.Length * Transition.MostInRow];
        Span<int> counts = stackalloc int[values.Length];
        FollowAll(new Transition(weights, columns, counts), values, surroundings, seconds, FactorsOf(seconds, stackalloc double[FactorCount]));
    }

    /// <summary>Moves one drawn state along: the same step, with the noise drawn instead of added to a covariance.</summary>
    public void Walk(double[] values, in Surroundings surroundings, double seconds, Random random)
    {
        var logTimeConstant = values[StateLayout.LogTimeConstant];
        Follow(values, surroundings, seconds);
        values[StateLayout.Scale] += Math.Sqrt(scaleVariance * Fading(2 * seconds / scaleSeconds)) * Normal.Next(random);
        if (response is not null)
        {
            var (first, second, both) = PartNoise(surroundings.Medium, logTimeConstant, seconds);
            var (one, other) = (Normal.Next(random), Normal.Next(random));
            var alone = first > 0 ? Math.Max(0, second - (both * both / first)) : 0;
            values[StateLayout.PartFirst] += Math.Sqrt(first) * one;
            values[StateLayout.PartSecond] += first > 0 ? (both / Math.Sqrt(first) * one) + (Math.Sqrt(alone) * other) : 0;
        }

        for (var axis = 0; axis < 3; axis++)
        {
            values[layout.FirstReference + axis] += Math.Sqrt(driftVariancePerSecond[axis] * seconds) * Normal.Next(random);
        }
    }

    private static double Positive(TimeSpan timeConstant, string what) => timeConstant > TimeSpan.Zero
        ? timeConstant.TotalSeconds
        : throw new ArgumentOutOfRangeException(nameof(timeConstant), timeConstant, $"{what} must be positive.");

    /// <summary>Two equal rates have a limit of their own; a thousandth apart nobody sees the difference.</summary>
    private static double Apart(double seconds, double other) => Math.Abs(seconds - other) < 1e-3 * other ? 1.001 * other : seconds;

    private static double DriftVariance(StateLayout layout, ThermalNoise noise, Axis axis)
    {
        var sensitivity = layout.Modes.Where(mode => mode.Axis == axis && !mode.DrivenBySpindle).Sum(mode => Math.Abs(mode.GainMicrometres));
        var perRootHour = noise.LeastDriftMicrometresPerRootHour + (noise.DriftKelvinsPerRootHour * sensitivity);
        return perRootHour * perRootHour / 3600;
    }

    private void FollowAll(in Transition transition, double[] mean, in Surroundings surroundings, double seconds, ReadOnlySpan<double> factors)
    {
        var air = surroundings.AirCelsius + mean[StateLayout.AirOffset];
        if (response is null)
        {
            foreach (var node in (ReadOnlySpan<int>)[StateLayout.PartFirst, StateLayout.PartSecond, StateLayout.PartSensor])
            {
                mean[node] = air;
                transition.Begin(node, 0);
                transition.Add(node, StateLayout.AirOffset, 1);
            }
        }
        else
        {
            FollowPart(transition, mean, surroundings, seconds);
        }

        var rise = scaleRiseKelvins == 0 ? 0 : scaleRiseKelvins * surroundings.SpindleLoad;
        Follow(transition, mean, StateLayout.Scale, (factors[ScaleKeep], factors[ScaleArrive]), air + mean[StateLayout.ScaleOffset] + rise, 1);
        transition.Add(StateLayout.Scale, StateLayout.ScaleOffset, factors[ScaleArrive]);
        Follow(transition, mean, StateLayout.Fixture, (factors[FixtureKeep], factors[FixtureArrive]), air, 1);
        for (var mode = 0; mode < modes.Length; mode++)
        {
            FollowMode(transition, mean, mode, surroundings, factors.Slice(FirstOfModes + (OfMode * mode), OfMode));
        }
    }

    private void FollowMode(in Transition transition, double[] mean, int mode, in Surroundings surroundings, ReadOnlySpan<double> factors)
    {
        var dynamics = modes[mode];
        var m = StateLayout.Displacement(mode);
        var r = StateLayout.SensitivityError(mode);
        var drive = dynamics.DrivenBySpindle
            ? surroundings.SpindleLoad
            : surroundings.AirCelsius + mean[StateLayout.AirOffset] - referenceCelsius;
        var gain = dynamics.GainMicrometres * (1 + mean[r]);
        Follow(transition, mean, m, (factors[ModeKeep], factors[ModeArrive]), gain * drive, dynamics.DrivenBySpindle ? 0 : gain);
        transition.Add(m, r, factors[ModeArrive] * dynamics.GainMicrometres * drive);
    }

    private static void Follow(in Transition transition, double[] mean, int index, (double Keep, double Arrive) step, double sink, double airGain)
    {
        mean[index] = (step.Keep * mean[index]) + (step.Arrive * sink);
        transition.Begin(index, step.Keep);
        transition.Add(index, StateLayout.AirOffset, step.Arrive * airGain);
    }

    /// <summary>1 − exp(−x) without losing digits near zero.</summary>
    private static double Fading(double x) => Math.Abs(x) < 1e-5 ? x - (x * x / 2) + (x * x * x / 6) : 1 - Math.Exp(-x);
}
