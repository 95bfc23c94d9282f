using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Evidence;

/// <summary>A recorded cut of one pattern, with what was said of its temperatures.</summary>
internal static class SomeCut
{
    /// <summary>From the morning on, a sample a minute.</summary>
    /// <param name="pattern">What is cut.</param>
    /// <param name="minutes">How long.</param>
    /// <param name="eps">Mismatch by the share of the cut that is done, in µm/m.</param>
    /// <param name="drift">Drift, the same all the time, in µm.</param>
    /// <param name="indexAxis">Of the machine.</param>
    /// <param name="uPart">Standard uncertainty of the part's temperature by the same share, in K; null for 0.2.</param>
    public static CutExposure Of(
        PositionFeature pattern, int minutes, Func<double, double> eps, AxisDrift drift = default, RotaryAxis indexAxis = RotaryAxis.B, Func<double, double>? uPart = null)
    {
        var step = GenealogyRecord.Of(
        [
            new JobLoaded(Some.Morning, "M1") { Serial = "S1", Part = "D-1", Operation = "40" },
            new CutMoved(Some.Morning, "M1") { Started = true, Serial = "S1", Operation = "40" },
            new CutMoved(Some.Morning.AddMinutes(minutes), "M1") { Started = false, Serial = "S1", Operation = "40" },
        ]).Steps[0];
        return new CutExposure
        {
            Step = step, Part = Some.Disc(pattern), Machine = Some.Machine() with { IndexAxis = indexAxis }, From = Some.Morning, To = Some.Morning.AddMinutes(minutes),
            Samples = [.. Enumerable.Range(0, minutes + 1).Select(minute => new ExposureSample(
                Some.Morning.AddMinutes(minute), true, 20, 24, 24, uPart?.Invoke((double)minute / minutes) ?? 0.2, 20, eps((double)minute / minutes), drift, 1, double.NaN, [new EffectNow(0, 3)]))],
        };
    }

    /// <summary>Holes as they would be measured.</summary>
    /// <param name="pattern">What was cut.</param>
    /// <param name="eps">Mismatch, in µm/m, by the share of the cut that was done.</param>
    /// <param name="noise">Standard deviation of one component, in µm.</param>
    /// <param name="shift">Of the whole pattern along the first axis, in µm.</param>
    /// <param name="seed">Of the noise.</param>
    public static IReadOnlyList<(int Hole, HoleDeviation Deviation)> Measured(PositionFeature pattern, Func<double, double> eps, double noise, double shift = 0, int seed = 5)
    {
        var chance = new Random(seed);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
        return
        [
            .. pattern.Points.Select((point, i) =>
            {
                var strain = eps((i + 0.5) / pattern.Points.Count);
                return (i + 1, new HoleDeviation(point.X, point.Y, (strain * point.X / 1000) + shift + (noise * Normal()), (strain * point.Y / 1000) + (noise * Normal())));
            }),
        ];
    }
}
