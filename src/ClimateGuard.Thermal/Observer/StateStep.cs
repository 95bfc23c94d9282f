using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The exact step of a state under constant surroundings: x ← F·x + b, P ← F·P·Fᵀ + Q, with F sparse.</summary>
/// <remarks>Each number follows itself by exp(−t/τ) and at most two others, so a step costs 6·n² operations and no allocation.</remarks>
internal sealed class StateStep
{
    private readonly StateLayout layout;
    private readonly PartResponse? response;
    private readonly double scaleSeconds;
    private readonly double fixtureSeconds;
    private readonly double referenceCelsius;
    private readonly double scaleVariance;
    private readonly double partVariance;
    private readonly double[] driftVariancePerSecond;

    public StateStep(Machine machine, Part? part, PartResponse? response, StateLayout layout, ThermalNoise noise, double referenceCelsius)
    {
        this.layout = layout;
        this.response = response;
        this.referenceCelsius = referenceCelsius;
        scaleSeconds = Positive(machine.Scale.TimeConstant, $"machine {machine.Id}: the time constant of its scale");
        fixtureSeconds = Positive(noise.FixtureTimeConstant, "the time constant of the fixture");
        foreach (var mode in layout.Modes)
        {
            Positive(TimeSpan.FromSeconds(mode.TimeConstantSeconds), $"machine {machine.Id}: the time constant of a drift mode");
        }

        scaleVariance = noise.ScaleKelvins * noise.ScaleKelvins;
        partVariance = part is null ? 0 : noise.PartKelvins * noise.PartKelvins;
        driftVariancePerSecond = [.. ((Axis[])[Axis.X, Axis.Y, Axis.Z]).Select(axis => DriftVariance(layout, noise, axis))];
    }

    public void Apply(ThermalState state, in Surroundings surroundings, double seconds)
    {
        Span<Link> links = stackalloc Link[state.Count];
        FollowAll(links, state.Mean, surroundings, seconds);
        MoveCovariance(state, links);
        AddNoise(state, surroundings.Medium, seconds);
    }

    /// <summary>The step of the numbers alone, without noise; the fast paths read their coefficients from it.</summary>
    public void Follow(double[] values, in Surroundings surroundings, double seconds)
    {
        Span<Link> links = stackalloc Link[values.Length];
        FollowAll(links, values, surroundings, seconds);
    }

    /// <summary>Moves one drawn state along: the same step, with the noise drawn instead of added to a covariance.</summary>
    public void Walk(double[] values, in Surroundings surroundings, double seconds, Random random)
    {
        Span<Link> links = stackalloc Link[values.Length];
        FollowAll(links, values, surroundings, seconds);
        values[StateLayout.Scale] += Math.Sqrt(scaleVariance * -Expm1(-2 * seconds / scaleSeconds)) * Normal.Next(random);
        if (response is not null)
        {
            var kick = Math.Sqrt(partVariance * -Expm1(-2 * seconds / response[surroundings.Medium].FirstSeconds)) * Normal.Next(random);
            values[StateLayout.PartFirst] += kick;
            values[StateLayout.PartSecond] += kick;
        }

        for (var axis = 0; axis < 3; axis++)
        {
            values[layout.FirstReference + axis] += Math.Sqrt(driftVariancePerSecond[axis] * seconds) * Normal.Next(random);
        }
    }

    private static double Positive(TimeSpan timeConstant, string what) => timeConstant > TimeSpan.Zero
        ? timeConstant.TotalSeconds
        : throw new ArgumentOutOfRangeException(nameof(timeConstant), timeConstant, $"{what} must be positive.");

    private static double DriftVariance(StateLayout layout, ThermalNoise noise, Axis axis)
    {
        var sensitivity = layout.Modes.Where(mode => mode.Axis == axis && !mode.DrivenBySpindle).Sum(mode => Math.Abs(mode.GainMicrometres));
        var perRootHour = noise.LeastDriftMicrometresPerRootHour + (noise.DriftKelvinsPerRootHour * sensitivity);
        return perRootHour * perRootHour / 3600;
    }

    private void FollowAll(Span<Link> links, double[] mean, in Surroundings surroundings, double seconds)
    {
        for (var i = 0; i < links.Length; i++)
        {
            links[i] = Link.Constant;
        }

        FollowPart(links, mean, surroundings, seconds);
        var air = surroundings.AirCelsius + mean[StateLayout.AirOffset];
        Follow(links, mean, StateLayout.Scale, seconds / scaleSeconds, air, StateLayout.AirOffset, 1);
        Follow(links, mean, StateLayout.Fixture, seconds / fixtureSeconds, air, StateLayout.AirOffset, 1);
        for (var mode = 0; mode < layout.Modes.Count; mode++)
        {
            FollowMode(links, mean, mode, surroundings, seconds);
        }
    }

    private void FollowPart(Span<Link> links, double[] mean, in Surroundings surroundings, double seconds)
    {
        if (response is null)
        {
            Follow(links, mean, StateLayout.PartFirst, double.PositiveInfinity, surroundings.AirCelsius, StateLayout.AirOffset, 1);
            Follow(links, mean, StateLayout.PartSecond, double.PositiveInfinity, surroundings.AirCelsius, StateLayout.AirOffset, 1);
            return;
        }

        var pair = response[surroundings.Medium];
        var slower = Math.Exp(mean[StateLayout.LogTimeConstant]);
        var offset = surroundings.Medium is Medium.Mist or Medium.Flood or Medium.Submerged ? StateLayout.CoolantOffset : StateLayout.AirOffset;
        var sink = surroundings.SinkCelsius + mean[offset];
        FollowNode(links, mean, StateLayout.PartFirst, seconds / (pair.FirstSeconds * slower), sink, offset);
        FollowNode(links, mean, StateLayout.PartSecond, seconds / (pair.SecondSeconds * slower), sink, offset);
    }

    private static void FollowNode(Span<Link> links, double[] mean, int node, double ratio, double sink, int offset)
    {
        // d(node)/d(ln τ) = (T₀ − T∞)·(t/τ)·exp(−t/τ): what an error of the time constant does to the node.
        var keep = Math.Exp(-ratio);
        var sensitivity = (mean[node] - sink) * ratio * keep;
        Follow(links, mean, node, ratio, sink, offset, 1);
        links[node] = links[node] with { Second = StateLayout.LogTimeConstant, SecondWeight = sensitivity };
    }

    private void FollowMode(Span<Link> links, double[] mean, int mode, in Surroundings surroundings, double seconds)
    {
        var dynamics = layout.Modes[mode];
        var m = StateLayout.Displacement(mode);
        var r = StateLayout.SensitivityError(mode);
        var drive = dynamics.DrivenBySpindle
            ? surroundings.SpindleLoad
            : surroundings.AirCelsius + mean[StateLayout.AirOffset] - referenceCelsius;
        var gain = dynamics.GainMicrometres * (1 + mean[r]);
        var arrive = -Expm1(-seconds / dynamics.TimeConstantSeconds);
        Follow(links, mean, m, seconds / dynamics.TimeConstantSeconds, gain * drive, StateLayout.AirOffset, dynamics.DrivenBySpindle ? 0 : gain);
        links[m] = links[m] with { Second = r, SecondWeight = arrive * dynamics.GainMicrometres * drive };
    }

    private static void Follow(Span<Link> links, double[] mean, int index, double ratio, double sink, int offset, double offsetGain)
    {
        var keep = Math.Exp(-ratio);
        var arrive = -Expm1(-ratio);
        mean[index] = (keep * mean[index]) + (arrive * sink);
        links[index] = new Link(keep, offset, arrive * offsetGain, offset, 0);
    }

    /// <summary>exp(x) − 1 without losing digits near zero.</summary>
    private static double Expm1(double x) => Math.Abs(x) < 1e-5 ? x + (x * x / 2) + (x * x * x / 6) : Math.Exp(x) - 1;

    private static void MoveCovariance(ThermalState state, ReadOnlySpan<Link> links)
    {
        var n = state.Count;
        var p = state.Covariance.AsSpan();
        var half = state.Scratch.AsSpan();
        for (var i = 0; i < n; i++)
        {
            var link = links[i];
            var row = half.Slice(i * n, n);
            var own = p.Slice(i * n, n);
            var first = p.Slice(link.First * n, n);
            var second = p.Slice(link.Second * n, n);
            for (var k = 0; k < n; k++)
            {
                row[k] = (link.Keep * own[k]) + (link.FirstWeight * first[k]) + (link.SecondWeight * second[k]);
            }
        }

        for (var i = 0; i < n; i++)
        {
            var row = half.Slice(i * n, n);
            for (var k = i; k < n; k++)
            {
                var link = links[k];
                var value = (link.Keep * row[k]) + (link.FirstWeight * row[link.First]) + (link.SecondWeight * row[link.Second]);
                p[(i * n) + k] = value;
                p[(k * n) + i] = value;
            }
        }
    }

    private void AddNoise(ThermalState state, Medium medium, double seconds)
    {
        var n = state.Count;
        var p = state.Covariance;
        p[(StateLayout.Scale * n) + StateLayout.Scale] += scaleVariance * -Expm1(-2 * seconds / scaleSeconds);
        if (response is not null)
        {
            var pair = response[medium];
            var first = partVariance * -Expm1(-2 * seconds / pair.FirstSeconds);
            p[(StateLayout.PartFirst * n) + StateLayout.PartFirst] += first;
            p[(StateLayout.PartSecond * n) + StateLayout.PartSecond] += first;
            p[(StateLayout.PartFirst * n) + StateLayout.PartSecond] += first;
            p[(StateLayout.PartSecond * n) + StateLayout.PartFirst] += first;
        }

        for (var axis = 0; axis < 3; axis++)
        {
            var reference = layout.FirstReference + axis;
            p[(reference * n) + reference] += driftVariancePerSecond[axis] * seconds;
        }
    }

    /// <summary>How one number follows: keep·itself + firstWeight·first + secondWeight·second.</summary>
    private readonly record struct Link(double Keep, int First, double FirstWeight, int Second, double SecondWeight)
    {
        public static Link Constant => new(1, 0, 0, 0, 0);
    }
}
