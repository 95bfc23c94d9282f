using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>
/// The probability that a feature leaves its budget at some moment of a cut, by paths: each path draws once what does not change during the
/// cut (state, expansion, time constant, sensitivities) and a correlated course of the air, and keeps its largest effect. Looking at single
/// moments would understate that, adding the moments up would overstate it.
/// </summary>
/// <remarks>This is the readable version; the test oracle of the fast one.</remarks>
internal static class CutPaths
{
    /// <summary>The share of paths that exceed, one for each feature.</summary>
    /// <param name="model">The model with its part.</param>
    /// <param name="state">The state at the begin.</param>
    /// <param name="cut">The cut.</param>
    /// <param name="durations">The duration for each feature.</param>
    public static double[] Exceedance(ThermalModel model, ThermalState state, CutAhead cut, ReadOnlySpan<TimeSpan> durations)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cut.Paths, 100);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cut.Paths, 100_000);
        var lastStep = new int[durations.Length];
        var (step, steps) = CutSteps.Of(durations, cut.Surroundings.Medium, lastStep);
        var start = new CutStart(model, state, cut.At(step.TotalMinutes / 2, model.Noise).Medium);
        var exceeded = new int[durations.Length];
        var walk = new CutWalk(model, cut, step);
        var random = new Random(cut.Seed);
        for (var path = 0; path < cut.Paths; path++)
        {
            walk.Begin(start, random);
            Walk(walk, steps, lastStep, exceeded, random);
        }

        return Array.ConvertAll(exceeded, count => count / (double)cut.Paths);
    }

    private static void Walk(CutWalk walk, int steps, int[] lastStep, int[] exceeded, Random random)
    {
        Span<bool> done = stackalloc bool[exceeded.Length];
        done.Clear();
        for (var k = 0; k <= steps; k++)
        {
            if (k > 0)
            {
                walk.Move(k - 1, random);
            }

            for (var f = 0; f < exceeded.Length; f++)
            {
                if (!done[f] && k <= lastStep[f] && walk.Exceeds(f))
                {
                    done[f] = true;
                    exceeded[f]++;
                }
            }
        }
    }
}

/// <summary>Where paths begin: the mean of the state and a square root of its covariance.</summary>
internal sealed class CutStart
{
    private readonly double[] mean;
    private readonly double[] root;

    public CutStart(ThermalModel model, ThermalState state, Medium medium)
    {
        Medium = medium;
        var begin = state.Copy();
        model.EnterMedium(begin, medium);
        mean = begin.Mean;
        root = CovarianceRoot.Of(begin.Covariance, begin.Count);
    }

    /// <summary>What covers the part in the first step.</summary>
    public Medium Medium { get; }

    public int Count => mean.Length;

    public void Draw(Span<double> values, Span<double> normals, Random random)
    {
        for (var i = 0; i < normals.Length; i++)
        {
            normals[i] = Normal.Next(random);
        }

        for (var i = 0; i < Count; i++)
        {
            var sum = mean[i];
            for (var k = 0; k <= i; k++)
            {
                sum += root[(i * Count) + k] * normals[k];
            }

            values[i] = sum;
        }
    }
}
