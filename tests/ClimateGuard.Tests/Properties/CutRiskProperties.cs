using ClimateGuard.Plant;
using ClimateGuard.Tests.Thermal.Risk;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

/// <summary>What must hold for the risk of any cut.</summary>
public sealed class CutRiskProperties
{
    private const int Paths = 2000;

    [Fact]
    public void The_probability_over_the_cut_lies_between_the_largest_of_its_moments_and_their_sum() => RandomCut.Any(Paths).Sample(
        random =>
        {
            // Moments are the same draws looked at once: features of the same kind, cut for no longer than one step.
            var cut = random.Cut with { Planned = TimeSpan.FromMinutes(4) };
            var whole = FastPaths.Fast(random.Model, random.State, cut, [.. random.Durations.Select(_ => TimeSpan.FromMinutes(4))]);
            var (largest, sum) = Moments(random.Model, random.State, cut);
            for (var f = 0; f < whole.Length; f++)
            {
                Assert.InRange(whole[f], largest[f] - 1e-12, sum[f] + 1e-12);
            }
        },
        iter: 60);

    [Fact]
    public void The_same_seed_gives_the_same_probability_and_another_seed_one_close_to_it() => RandomCut.Any(Paths).Sample(
        random =>
        {
            var first = FastPaths.Fast(random.Model, random.State, random.Cut, random.Durations);
            var again = FastPaths.Fast(random.Model, random.State, random.Cut, random.Durations);
            var other = FastPaths.Fast(random.Model, random.State, random.Cut with { Seed = random.Cut.Seed ^ 77 }, random.Durations);
            Assert.Equal(first, again);
            Assert.All(first.Zip(other), pair => Assert.True(Math.Abs(pair.First - pair.Second) < 0.08));
        },
        iter: 60);

    [Fact]
    public void A_longer_cut_never_lowers_the_probability() => Gen.Select(RandomCut.Any(500), Gen.Int[1, 100], Gen.Int[0, 100]).Sample(
        (random, minutes, more) =>
        {
            var shorter = Planned(random, minutes);
            var longer = Planned(random, minutes + more);
            Assert.All(shorter.Zip(longer), pair => Assert.True(pair.First <= pair.Second));
        },
        iter: 100);

    [Fact]
    public void Waiting_in_unchanging_air_never_makes_a_part_that_was_only_too_cold_less_safe() => Gen.Select(Gen.Double[12, 18], Gen.Int[0, 200], Gen.Int[0, 100]).Sample(
        (start, minutes, more) =>
        {
            // Only mismatch counts here and it only shrinks: no drift, no wet part, no forecast error.
            var model = new ThermalModel(Shop.Horizontal with { Drift = [] }, Shop.Carrier, new ThermalNoise { LeastDriftMicrometresPerRootHour = 0 });
            Assert.True(After(model, start, minutes) + 0.03 >= After(model, start, minutes + more));
        },
        iter: 60);

    [Fact]
    public void More_information_never_raises_the_uncertainty_of_an_effect_that_is_a_length() => Gen.Select(RandomCut.Any(100), Gen.Double[0.02, 2]).Sample(
        (random, u) =>
        {
            foreach (var effect in random.Model.Effects.Where(effect => effect.Geometry is FeatureGeometry.Along))
            {
                var before = effect.At(random.Model, random.State).UMicrometres;
                var after = random.State.Copy();
                random.Model.ObserveContact(after, random.Model.PartTemperature(after), new Kelvins(u));
                random.Model.ObserveScale(after, new Celsius(after[StateLayout.Scale]), new Kelvins(u));
                random.Model.ObserveReprobe(after, Axis.Z, -random.Model.DriftMicrometres(after, Axis.Z), u);
                Assert.True(effect.At(random.Model, after).UMicrometres <= before * (1 + 1e-9) + 1e-9);
            }
        },
        iter: 100);

    private static double[] Planned(RandomCut random, int minutes) => FastPaths.Fast(
        random.Model, random.State, random.Cut with { Planned = TimeSpan.FromMinutes(minutes) }, [.. random.Durations.Select(_ => TimeSpan.FromMinutes(minutes))]);

    private static double After(ThermalModel model, double start, int minutes)
    {
        var state = Shop.Loaded(model, start);
        model.Advance(state, new Surroundings(20), TimeSpan.FromMinutes(minutes));
        return FinishCutRisk.Over(model, state, Shop.Hold().Cut with { Surroundings = new Surroundings(20) }, new Policies())[0].Probability;
    }

    /// <summary>For each feature the largest and the sum of the probabilities of the single moments of the same paths.</summary>
    private static (double[] Largest, double[] Sum) Moments(ThermalModel model, ThermalState state, CutAhead cut)
    {
        var kernel = CutKernel.Rent(model);
        var features = model.Effects.Count;
        var (largest, sum) = (new double[features], new double[features]);
        for (var moment = 0; moment <= 4; moment++)
        {
            var exceeded = new double[features];
            kernel.Start(state, cut.Surroundings.Medium);
            for (var block = 0; block * PathBlock.Lanes < cut.Paths; block++)
            {
                kernel.Draw(CutKernel.Chance(cut.Seed, block));
                kernel.Features.Begin(kernel.Block, reprobed: false);
                kernel.Move(new PathCourse(cut.Covering(TimeSpan.Zero, model.Noise), cut, 0, TimeSpan.FromMinutes(1), moment));
                kernel.Features.Look(kernel.Block, cut.Surroundings.Medium, 0, new int[features]);
                for (var f = 0; f < features; f++)
                {
                    for (var path = 0; path < Math.Min(PathBlock.Lanes, cut.Paths - (block * PathBlock.Lanes)); path++)
                    {
                        exceeded[f] += kernel.Features.Exceeded(f, path) ? 1.0 / cut.Paths : 0;
                    }
                }
            }

            for (var f = 0; f < features; f++)
            {
                largest[f] = Math.Max(largest[f], exceeded[f]);
                sum[f] += exceeded[f];
            }
        }

        kernel.Return();
        return (largest, sum);
    }
}
