using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Tests.Thermal.Observer;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Thermal.Effect;

public sealed class EffectUncertaintyTests
{
    private static SizeFeature Bore(double nominal = 1000) => new()
    {
        Id = "bore", ToleranceMillimetres = 0.05, Budget = BudgetRule.Absolute(10), NominalMillimetres = nominal,
    };

    // JCGM 100, 5.2.2: an offset common to part and scale acts as L·(αs − αp)·u, not as L·√(αs² + αp²)·u.
    [Theory]
    [InlineData(11.5, 11.5, 0)]
    [InlineData(10.5, 23.8, 13.3 * 0.5)]
    public void What_all_air_sensors_get_wrong_cancels_between_like_materials(double scaleAlpha, double partAlpha, double micrometres)
    {
        var noise = new ThermalNoise { AirOffsetKelvins = 0.5, ScaleKelvins = 0, PartKelvins = 0 };
        var model = new ThermalModel(Some.Machine(scaleAlpha), Some.Disc(Bore()) with { Material = Some.Steel(partAlpha, 0) }, noise);
        var state = model.Settled(new Surroundings(20));
        var shares = model.Effects[0].UncertaintyAt(model, state);
        Assert.Equal(micrometres, shares.Single(share => share.Label == "offset shared by the air sensors").Micrometres, 1e-9);
        Assert.Equal(0, shares.Single(share => share.Label == "temperature of part and scale").Micrometres, 1e-5);

        // Measured apart, each with its own 0.5 K, nothing cancels.
        model.LoadPart(state, new Celsius(20), new Kelvins(0.5));
        Assert.Equal(
            0.5 * Math.Sqrt((scaleAlpha * scaleAlpha) + (partAlpha * partAlpha)),
            Math.Sqrt(model.Effects[0].UncertaintyAt(model, state).Take(3).Sum(share => share.Micrometres * share.Micrometres)),
            1e-9);
    }

    [Fact]
    public void It_stays_common_while_both_follow_the_same_air()
    {
        var noise = new ThermalNoise { AirOffsetKelvins = 0.5, ScaleKelvins = 0, PartKelvins = 0, TimeConstantShare = 0 };
        var model = new ThermalModel(Some.Machine(11.5), Some.Disc(Bore()) with { Material = Some.Steel(11.5, 0) }, noise);
        var state = Some.StateOf(model, 22, 22);
        model.Advance(state, new Surroundings(20), TimeSpan.FromDays(2));
        Assert.Equal(0, model.Effects[0].UncertaintyAt(model, state)[2].Micrometres, 1e-3);
    }

    [Fact]
    public void The_shares_add_up_to_the_whole() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var model = AnyMachine.Model(chance);
            var state = AnyMachine.Start(model, chance);
            model.Advance(state, AnyMachine.Around(chance), TimeSpan.FromMinutes(chance.Between(1, 600)));
            if (chance.Next(2) == 0) model.ObserveContact(state, model.PartTemperature(state), new Kelvins(0.1));
            var u = model.Effects[0].At(model, state).UMicrometres;
            var shares = model.Effects[0].UncertaintyAt(model, state);
            Assert.All(shares, share => Assert.True(share.Micrometres >= 0));
            Assert.Equal(u, Math.Sqrt(shares.Sum(share => share.Micrometres * share.Micrometres)), 1e-7 * (1 + u));
        },
        iter: 200);

    [Fact]
    public void Where_part_and_scale_stand_at_the_reference_only_the_products_show_the_coefficients()
    {
        var model = new ThermalModel(Some.Machine(11.5), Some.Disc(Bore()) with { Material = Some.Steel(11.5, 1.2) });
        var state = Some.StateOf(model, 20, 20);
        model.LoadPart(state, new Celsius(20), new Kelvins(1));
        var found = model.Effects[0].UncertaintyOf(model, state, seed: 7);

        // u(α)·u(T)·L: 1.2 for the part; 0.5·√(0.15² + 0.1²) = 0.0901 for the scale.
        Assert.Equal(Math.Sqrt((1.2 * 1.2) + (0.0901 * 0.0901)), found.ProductsMicrometres, 1e-3);
        Assert.True(found.UMicrometres > Math.Sqrt((found.UMicrometres * found.UMicrometres) - 1.44));
        Assert.Equal(found.UMicrometres, found.UMonteCarloMicrometres, 0.01 * found.UMicrometres);
    }

    [Fact]
    public void Both_ways_agree_on_a_length_and_the_same_question_gets_the_same_answer() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var any = AnyMachine.Model(chance);
            var model = new ThermalModel(any.Machine, any.Part! with { Features = [Bore(chance.Between(50, 900))] });
            var state = AnyMachine.Start(model, chance);
            model.Advance(state, AnyMachine.Around(chance), TimeSpan.FromMinutes(chance.Between(1, 600)));
            var found = model.Effects[0].UncertaintyOf(model, state, (ulong)seed, 20_000);
            Assert.Equal(found.UMicrometres, found.UMonteCarloMicrometres, 0.03 * found.UMicrometres);
            Assert.Equal(found.EffectMicrometres, found.MeanMonteCarloMicrometres, 0.04 * found.UMicrometres);
            Assert.Equal(found.UMonteCarloMicrometres, model.Effects[0].UncertaintyOf(model, state, (ulong)seed, 20_000).UMonteCarloMicrometres);
        },
        iter: 20);

    [Fact]
    public void The_magnitude_of_a_position_near_zero_is_larger_on_average_than_expected_and_monte_carlo_says_so()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc());
        var state = Some.StateOf(model, 20, 20);
        var found = model.Effects[0].UncertaintyOf(model, state, seed: 1);
        Assert.Equal(0, found.EffectMicrometres, 1e-9);

        // |N(0, u)| has mean u·√(2/π) and standard deviation u·√(1 − 2/π).
        Assert.Equal(found.UMicrometres * Math.Sqrt(2 / Math.PI), found.MeanMonteCarloMicrometres, 0.02 * found.UMicrometres);
        Assert.Equal(found.UMicrometres * Math.Sqrt(1 - (2 / Math.PI)), found.UMonteCarloMicrometres, 0.02 * found.UMicrometres);
    }

    // Aluminium plate, 1.04 m to the corner: u(Tp) 0.15 K gives 7.6 µm of position, 0.05 K 3.0 µm.
    [Theory]
    [InlineData(0.15, 7.6)]
    [InlineData(0.05, 3.0)]
    public void Knowing_the_part_better_is_worth_micrometres(double kelvins, double micrometres)
    {
        var far = new PositionFeature
        {
            Id = "holes", ToleranceMillimetres = 0.05, Budget = BudgetRule.Absolute(17.5), Datum = DatumKind.Corner, Points = [new(1040 * 0.8, 1040 * 0.6)],
        };
        var model = new ThermalModel(Some.Machine(10.5), Some.Disc(far) with { Material = Some.Steel(23.8, 0.5) });
        var state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(20.5), new Kelvins(kelvins));
        state.Reset(StateLayout.Scale, 20.2, 0.05 * 0.05);
        Assert.Equal(micrometres, model.Effects[0].At(model, state).UMicrometres, 0.35);
    }
}
