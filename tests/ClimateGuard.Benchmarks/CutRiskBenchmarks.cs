using BenchmarkDotNet.Attributes;
using ClimateGuard.Thermal;

namespace ClimateGuard.Benchmarks;

/// <summary>The risk of one cut: 2 000 paths, 90 steps of a minute and 20 features in at most 10 ms; then half of each, to see that it is linear.</summary>
[MemoryDiagnoser]
public class CutRiskBenchmarks
{
    private ThermalModel model = null!;
    private ThermalState state = null!;
    private CutAhead cut = null!;
    private TimeSpan[] durations = [];
    private double[] probabilities = [];

    [Params("2000x90x20", "1000x90x20", "4000x90x20", "2000x45x20", "2000x180x20", "2000x90x10", "2000x90x40")]
    public string Size { get; set; } = "";

    [GlobalSetup]
    public void Begin()
    {
        var size = Array.ConvertAll(Size.Split('x'), text => int.Parse(text, System.Globalization.CultureInfo.InvariantCulture));
        model = BenchmarkCase.Model(size[2]);
        state = BenchmarkCase.State(model);
        cut = BenchmarkCase.Cut(size[1], size[0]);
        durations = [.. model.Effects.Select(_ => TimeSpan.FromMinutes(size[1]))];
        probabilities = new double[durations.Length];
    }

    [Benchmark]
    public void Paths() => FastCutPaths.Exceedance(model, state, cut, durations, probabilities);
}
