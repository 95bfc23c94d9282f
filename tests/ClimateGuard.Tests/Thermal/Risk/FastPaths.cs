using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Thermal.Risk;

/// <summary>The fast paths against the readable ones, which are the oracle.</summary>
public sealed class FastPaths
{
    [Fact]
    public void They_give_the_probability_of_the_readable_ones_within_the_error_of_drawing()
    {
        var wide = 0;
        var all = 0;
        RandomCut.Any(2000).Sample(
            random =>
            {
                var expected = CutPaths.Exceedance(random.Model, random.State, random.Cut, random.Durations);
                var found = Fast(random.Model, random.State, random.Cut, random.Durations);
                for (var f = 0; f < found.Length; f++)
                {
                    var middle = (expected[f] + found[f]) / 2;
                    var spread = Math.Sqrt(((middle * (1 - middle)) + 1e-3) * 2 / 2000);
                    Assert.True(Math.Abs(found[f] - expected[f]) < 5 * spread, $"{random.Model.Effects[f].Feature}: {found[f]} not {expected[f]}");
                    Interlocked.Increment(ref all);
                    if (Math.Abs(found[f] - expected[f]) > 2 * spread) Interlocked.Increment(ref wide);
                }
            },
            iter: 40);

        Assert.True(wide <= 0.08 * all, $"{wide} of {all} are more than two deviations apart.");
    }

    [Fact]
    public void The_model_is_understood_in_every_medium_and_never_falls_back_on_the_readable_paths() => RandomCut.Any(100).Sample(
        random =>
        {
            var kernel = CutKernel.Rent(random.Model);
            Assert.True(kernel.TryExceedance(random.State, random.Cut, random.Durations, new double[random.Durations.Length]));
            kernel.Return();
        },
        iter: 40);

    [Fact]
    public void With_nothing_uncertain_they_agree_with_the_readable_ones_on_every_feature() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            var random = RandomCut.Of(new Random(seed), 100);
            var model = Certain(random.Model);
            var state = new ThermalState(random.State.Means, new double[random.State.Count * random.State.Count]) { PartMedium = random.State.PartMedium };
            var cut = random.Cut with { AirSpreadKelvins = null };
            Assert.Equal(CutPaths.Exceedance(model, state, cut, random.Durations), Fast(model, state, cut, random.Durations));
        },
        iter: 60);

    [Fact]
    public void A_question_whose_step_was_seen_before_allocates_nothing()
    {
        var random = RandomCut.Of(new Random(5), 500);
        var durations = random.Durations;
        var probabilities = new double[durations.Length];
        FastCutPaths.Exceedance(random.Model, random.State, random.Cut, durations, probabilities);
        var before = GC.GetAllocatedBytesForCurrentThread();
        FastCutPaths.Exceedance(random.Model, random.State, random.Cut, durations, probabilities);

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    internal static double[] Fast(ThermalModel model, ThermalState state, CutAhead cut, TimeSpan[] durations)
    {
        var probabilities = new double[durations.Length];
        FastCutPaths.Exceedance(model, state, cut, durations, probabilities);
        return probabilities;
    }

    internal static ThermalModel Certain(ThermalModel model)
    {
        var machine = model.Machine with { Scale = model.Machine.Scale with { UAlphaMicrometresPerMetreKelvin = 0 } };
        var part = model.Part! with { Material = model.Part!.Material with { UAlphaMicrometresPerMetreKelvin = 0 } };
        return new ThermalModel(machine, part, new ThermalNoise
        {
            AirOffsetKelvins = 0,
            CoolantOffsetKelvins = 0,
            ScaleKelvins = 0,
            PartKelvins = 0,
            TimeConstantShare = 0,
            DriftKelvinsPerRootHour = 0,
            LeastDriftMicrometresPerRootHour = 0,
            AirForecastKelvins = 0,
            WetShareUncertainty = 0,
        });
    }
}
