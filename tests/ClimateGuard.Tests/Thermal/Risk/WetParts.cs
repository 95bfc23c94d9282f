using ClimateGuard.Plant;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Thermal.Risk;

/// <summary>A part whose coolant was switched off: wet for a while, nobody knows how much, then dry.</summary>
public sealed class WetParts
{
    // Wet-bulb temperature of air of 20 °C at 45 % (psychrometric chart).
    private const double WetBulb = 13;
    private static readonly Policies Rules = new();
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    [Fact]
    public void A_part_that_is_dry_by_now_is_cut_as_in_air() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            var (dry, inAir) = (Wet(seed, 300) with { WetFor = TimeSpan.Zero }, Wet(seed, 300));
            inAir = inAir with { Surroundings = inAir.Surroundings with { Medium = Medium.Air } };
            var (model, state) = Of(seed);

            Assert.Equal(FinishCutRisk.Over(model, state, inAir, Rules).Select(Said), FinishCutRisk.Over(model, state, dry, Rules).Select(Said));
            TimeSpan[] durations = [.. model.Effects.Select(effect => FinishCutRisk.Duration(effect, dry))];
            Assert.Equal(CutPaths.Exceedance(model, state, inAir, durations), CutPaths.Exceedance(model, state, dry, durations));
        },
        iter: 30);

    [Fact]
    public void The_fast_paths_dry_when_the_readable_ones_do() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            var chance = new Random(seed);
            var cut = Wet(seed, 2000) with { Planned = TimeSpan.FromMinutes(chance.Next(10, 70)), WetFor = TimeSpan.FromMinutes(40 * chance.NextDouble()) };
            var (model, state) = Of(seed);
            TimeSpan[] durations = [.. model.Effects.Select(effect => FinishCutRisk.Duration(effect, cut))];
            var (readable, fast) = (CutPaths.Exceedance(model, state, cut, durations), FastPaths.Fast(model, state, cut, durations));
            for (var f = 0; f < fast.Length; f++)
            {
                var middle = (readable[f] + fast[f]) / 2;
                Assert.Equal(readable[f], fast[f], 5 * Math.Sqrt(((middle * (1 - middle)) + 1e-3) * 2 / 2000));
            }
        },
        iter: 30);

    [Fact]
    public void With_nothing_uncertain_both_paths_dry_in_the_same_step() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            var chance = new Random(seed);
            var cut = Wet(seed, 100) with { Planned = TimeSpan.FromMinutes(chance.Next(10, 70)), WetFor = TimeSpan.FromMinutes(40 * chance.NextDouble()), AirSpreadKelvins = null };
            var (any, state) = Of(seed);
            var model = FastPaths.Certain(any);
            var known = new ThermalState(state.Means, new double[state.Count * state.Count]) { PartMedium = state.PartMedium };
            TimeSpan[] durations = [.. model.Effects.Select(effect => FinishCutRisk.Duration(effect, cut))];
            Assert.Equal(CutPaths.Exceedance(model, known, cut, durations), FastPaths.Fast(model, known, cut, durations));
        },
        iter: 40);

    [Fact]
    public void The_expected_trail_goes_to_the_wet_bulb_until_the_part_is_dry_and_back_to_the_air()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier, AllOver);
        var state = Shop.Loaded(model, 20);
        var cut = new CutAhead { Surroundings = InWet, WetFor = TimeSpan.FromMinutes(25) };

        // One stretch over the moment of drying: each exponential solved by hand, τ = 132 min in air and 44 min wet (domain figures of the part).
        cut.Advance(model, state, 0, TimeSpan.FromMinutes(60));
        var inAir = model.Response!.TimeConstant(Medium.Air).TotalMinutes;
        var wet = model.Response.TimeConstant(Medium.Wet).TotalMinutes;
        Assert.Equal(20 - (7 * (1 - Math.Exp(-25 / wet)) * Math.Exp(-35 / inAir)), model.PartTemperature(state).Value, 1e-6);
        Assert.Equal(3, inAir / wet, 0.05);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(1)]
    public void A_part_near_the_air_loses_heat_in_proportion_to_its_wet_share(double share)
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = Shop.Loaded(model, 20);
        state.Mean[StateLayout.WetShare] = share;
        model.Advance(state, InWet, Minute);

        // dT/dt = −F·w·(Ta − Tw)/τ with the film of dry air; a minute is short beside τ.
        var expected = PartResponse.EvaporationFactor * share * (20 - WetBulb) / model.Response!.TimeConstant(Medium.Air).TotalMinutes;
        Assert.Equal(expected, 20 - model.PartTemperature(state).Value, (0.03 * expected) + 1e-9);
    }

    [Fact]
    public void A_film_thins_so_that_it_takes_in_all_what_a_full_one_takes_in_its_drying_time()
    {
        var noise = new ThermalNoise { WetShare = 1, WetShareUncertainty = 0 };
        var (thinning, full) = (new ThermalModel(Shop.Horizontal, Shop.Carrier, noise), new ThermalModel(Shop.Horizontal, Shop.Carrier, AllOver));
        var (once, again) = (Shop.Loaded(thinning, 20), Shop.Loaded(full, 20));
        new CutAhead { Surroundings = InWet }.Advance(thinning, once, 0, noise.WetFor);
        new CutAhead { Surroundings = InWet, WetFor = noise.DryingTime }.Advance(full, again, 0, noise.DryingTime);

        // 1 - exp(-40/15) = 0.93 of it has gone by then, and some of what the part lost early comes back.
        var ratio = (20 - thinning.PartTemperature(once).Value) / (20 - full.PartTemperature(again).Value);
        Assert.InRange(ratio, 0.6, 0.93);
    }

    [Fact]
    public void Not_knowing_how_wet_it_is_grows_the_uncertainty_of_a_wet_part_only()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var (wet, inAir) = (Shop.Loaded(model, 20), Shop.Loaded(model, 20));
        model.Advance(wet, InWet, TimeSpan.FromMinutes(20));
        model.Advance(inAir, new Surroundings(20), TimeSpan.FromMinutes(20));

        // 20 min: 3·0.3·7 K·20/132 = 0.95 K, and what the model does not know of the part.
        Assert.InRange(model.PartUncertainty(wet).Value, 0.85, 1.0);
        Assert.True(model.PartUncertainty(inAir).Value < 0.15);
    }

    [Fact]
    public void A_wet_part_is_measured_first_where_a_part_known_to_be_wet_is_held_and_one_blown_dry_may_start()
    {
        Assert.Equal(Answer.Measure, AnswerFor(new ThermalNoise(), dry: false));
        Assert.Equal(Answer.Hold, AnswerFor(AllOver, dry: false));
        Assert.Equal(Answer.Go, AnswerFor(new ThermalNoise(), dry: true));
    }

    [Fact]
    public void A_contact_reading_tells_how_wet_the_part_was()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = Shop.Loaded(model, 20);
        model.Advance(state, InWet, TimeSpan.FromMinutes(20));
        var before = state.StandardDeviation(StateLayout.WetShare);
        model.ObserveContact(state, new Celsius(20), new Kelvins(0.05));

        Assert.Equal(0, state[StateLayout.WetShare], 0.2);
        Assert.True(state.StandardDeviation(StateLayout.WetShare) < before / 2);

        // Coolant on again: it is wetted anew, and nobody knows again.
        model.Advance(state, new Surroundings(20, Medium.Flood, 20), Minute);
        Assert.Equal((model.Noise.WetShare, before), (state[StateLayout.WetShare], state.StandardDeviation(StateLayout.WetShare)));
    }

    /// <summary>Wet all over, for certain, by a film that does not thin.</summary>
    private static ThermalNoise AllOver => new() { WetShare = 1, WetShareUncertainty = 0, DryingTime = TimeSpan.FromDays(100_000) };

    private static Surroundings InWet => new(20, Medium.Wet, 20, WetBulb);

    private static Answer AnswerFor(ThermalNoise noise, bool dry)
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier, noise);
        var state = Shop.Loaded(model, 20);
        if (!dry) model.Advance(state, InWet, TimeSpan.FromMinutes(15));
        var cut = new CutAhead { Surroundings = InWet, WetFor = TimeSpan.FromMinutes(dry ? 0 : 15) };
        return Assert.Single(FinishCutRisk.Over(model, state, cut, Rules)).Answer;
    }

    private static (ThermalModel Model, ThermalState State) Of(int seed)
    {
        var random = RandomCut.Of(new Random(seed), 100);
        return (random.Model, random.State);
    }

    private static CutAhead Wet(int seed, int paths)
    {
        var cut = RandomCut.Of(new Random(seed), paths).Cut;
        return cut with { Surroundings = cut.Surroundings with { Medium = Medium.Wet } };
    }

    private static (string Feature, double Probability, double Worst, double U) Said(FeatureRisk risk) =>
        (risk.Feature.Id, risk.Probability, risk.Worst.EffectMicrometres, risk.Worst.UMicrometres);
}
