using BenchmarkDotNet.Attributes;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Benchmarks;

/// <summary>
/// 72 h at one sample a minute, two modes, set-back: the fit with its validation, and the same with 200 bootstrap replicates.
/// </summary>
[MemoryDiagnoser]
public class DriftFitBenchmarks
{
    private static readonly DriftFitOptions Options = new();
    private DriftTestRecord _record = null!;

    /// <summary>Makes the record once.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var chance = new Random(1);
        var start = new DateTimeOffset(2025, 3, 3, 6, 0, 0, TimeSpan.Zero);
        var air = new Celsius[4321];
        var displacement = new double[air.Length];
        double fast = 0.7, slow = 0.7;
        for (var minute = 0; minute < air.Length; minute++)
        {
            var hours = minute / 60.0;
            var above = (0.4 * Math.Sin(2.0 * Math.PI * hours / 24.0)) + (hours is > 20.0 and < 44.0 ? 2.4 : 0.0);
            air[minute] = new Celsius(20.0 + above);
            fast += (above - fast) / (60.0 * 1.2);
            slow += (above - slow) / (60.0 * 14.0);
            displacement[minute] = (-5.0 * fast) + (14.0 * slow) + ((chance.NextDouble() - 0.5) * 1.04);
        }

        _record = new DriftTestRecord(
            [.. Enumerable.Range(0, air.Length).Select(minute => start.AddMinutes(minute))],
            air,
            new Dictionary<Axis, IReadOnlyList<double>> { [Axis.Z] = displacement });
    }

    /// <summary>Without ranges; the ceiling is 1 s.</summary>
    [Benchmark(Baseline = true)]
    public DriftFitResult Fit() => DriftFit.Fit(_record, Axis.Z, Options);

    /// <summary>With 200 replicates; the ceiling is 10 s.</summary>
    [Benchmark]
    public DriftFitResult FitWithRanges() => DriftFit.Fit(_record, Axis.Z, Options, new Random(1));
}
