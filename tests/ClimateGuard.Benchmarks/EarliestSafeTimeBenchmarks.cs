using BenchmarkDotNet.Attributes;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Benchmarks;

/// <summary>When a held cut may start, and all actions played through: 1 000 truths, 4 h, one feature and five.</summary>
[MemoryDiagnoser]
public class EarliestSafeTimeBenchmarks
{
    private ThermalModel model = null!;
    private ThermalState state = null!;
    private HoldAhead hold = null!;

    [Params(1, 5)]
    public int Features { get; set; }

    [GlobalSetup]
    public void Begin()
    {
        model = BenchmarkCase.Model(Features);
        state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(17), new Kelvins(0.2));
        hold = new HoldAhead
        {
            Now = new Surroundings(20, Medium.Flood, 20, 13),
            Cut = BenchmarkCase.Cut(20, 1000) with { Surroundings = new Surroundings(20, Medium.Flood, 20), AirCelsius = [] },
            ReprobeAtStart = true,
        };
    }

    [Benchmark]
    public bool EarliestStart() => EarliestSafeTime.TryFind(model, state, hold, new Policies(), out _);

    [Benchmark]
    public int AllActions() => RankedActions.For(new ActionQuestion
    {
        Model = model,
        State = state,
        Hold = hold,
        Policies = new Policies(),
        Coolant = new Celsius(20),
    }).Count;
}
