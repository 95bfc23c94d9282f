using System.Runtime.Intrinsics;
using BenchmarkDotNet.Attributes;
using ClimateGuard.Thermal;

namespace ClimateGuard.Benchmarks;

/// <summary>One observer step of a machine: at most 2 µs and 0 B.</summary>
[MemoryDiagnoser]
public class ObserverStepBenchmarks
{
    private readonly ThermalModel model = BenchmarkCase.Model(5);
    private readonly double[] left = new double[6 * 20 * 20];
    private ThermalState state = null!;

    [GlobalSetup]
    public void Begin() => state = BenchmarkCase.State(model);

    /// <summary>The ceiling: as many bare multiply-adds as a step of that many numbers needs, 6·n², four at a time and in place.</summary>
    [Benchmark(Baseline = true)]
    public double BareMultiplyAdds()
    {
        ref var first = ref left[0];
        for (nuint at = 0; at < (nuint)left.Length; at += 4)
        {
            ((Vector256.LoadUnsafe(ref first, at) * 0.99) + Vector256<double>.One).StoreUnsafe(ref first, at);
        }

        return left[0];
    }

    [Benchmark]
    public void OneMinute() => model.Advance(state, new Surroundings(20.4, Medium.Flood, 20.2, SpindleLoad: 0.6), TimeSpan.FromMinutes(1));
}
