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

    /// <summary>The ceiling: as many bare multiply-adds as a step of twenty numbers needs, 6·n².</summary>
    [Benchmark(Baseline = true)]
    public double BareMultiplyAdds()
    {
        var sum = 0.0;
        foreach (var value in left)
        {
            sum = (value * 0.99) + sum;
        }

        return sum;
    }

    [Benchmark]
    public void OneMinute() => model.Advance(state, new Surroundings(20.4, Medium.Flood, 20.2, SpindleLoad: 0.6), TimeSpan.FromMinutes(1));
}
