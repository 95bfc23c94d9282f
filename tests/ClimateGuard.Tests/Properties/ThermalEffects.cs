using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Tests.Thermal.Observer;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class ThermalEffects
{
    [Fact]
    public void Equal_expansion_at_one_uniform_temperature_gives_no_mismatch() => Gen.Select(Gen.Double[0, 30], Gen.Double[-20, 60], Gen.Double[1, 3000]).Sample(
        (alpha, celsius, length) =>
        {
            var model = new ThermalModel(Some.Machine(alpha), Some.Disc(Size(length)) with { Material = Some.Steel(alpha) });
            Assert.Equal(0, model.Effects[0].At(model, Some.StateOf(model, celsius, celsius)).MismatchMicrometres, 1e-9);
        },
        iter: 300);

    [Fact]
    public void The_effect_is_linear_in_size() => Gen.Select(Gen.Double[1, 1000], Gen.Double[0.1, 10], Gen.Double[10, 30], Gen.Double[18, 22]).Sample(
        (length, factor, part, scale) =>
        {
            var model = new ThermalModel(Some.Machine(8), Some.Disc(Size(length), Size(length * factor) with { Id = "other" }, Some.Holes(length), Some.Holes(length * factor) with { Id = "wide" }));
            var state = Some.StateOf(model, part, scale);
            var effects = model.Effects.Select(effect => effect.At(model, state)).ToArray();
            for (var i = 0; i < 4; i += 2)
            {
                var size = 1e-9 * (1 + Math.Abs(effects[i + 1].EffectMicrometres));
                Assert.Equal(factor * effects[i].EffectMicrometres, effects[i + 1].EffectMicrometres, size);
            }

            // A position is diametral: a circle of radius r grows like a diameter of 2·r.
            Assert.Equal(2 * Math.Abs(effects[0].EffectMicrometres), effects[2].EffectMicrometres, 1e-6 * (1 + effects[2].EffectMicrometres));
        },
        iter: 300);

    [Fact]
    public void Probing_again_takes_the_drift_away_and_nothing_else() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var any = AnyMachine.Model(chance);
            var depth = new DepthFeature { Id = "d", ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(5), NominalMillimetres = chance.Between(1, 300), Axis = (Axis)chance.Next(3) };
            var model = new ThermalModel(any.Machine, any.Part! with { Features = [Some.Holes(), depth] });
            var state = AnyMachine.Start(model, chance);
            model.Advance(state, AnyMachine.Around(chance), TimeSpan.FromMinutes(chance.Between(1, 600)));
            var before = model.Effects.Select(effect => effect.At(model, state)).ToArray();
            var (part, scale) = (model.PartTemperature(state), state[StateLayout.Scale]);

            model.ProbeDatum(state, [Axis.X, Axis.Y, Axis.Z]);

            var after = model.Effects.Select(effect => effect.At(model, state)).ToArray();
            for (var i = 0; i < before.Length; i++)
            {
                Assert.Equal(0, after[i].DriftMicrometres, 1e-9);
                Assert.Equal(before[i].MismatchMicrometres, after[i].MismatchMicrometres, 1e-9);
                Assert.Equal(after[i].MismatchMicrometres, after[i].EffectMicrometres, 1e-9);
            }

            Assert.Equal((part.Value, scale), (model.PartTemperature(state).Value, state[StateLayout.Scale]));
            Assert.All(Enum.GetValues<Axis>(), axis => Assert.Equal(0, model.DriftUncertainty(state, axis), 1e-6));
        },
        iter: 200);

    [Fact]
    public void The_variance_of_an_effect_is_never_negative_and_never_not_a_number() => AnyMachine.Seed.Sample(
        seed =>
        {
            var chance = new Random(seed);
            var model = AnyMachine.Model(chance);
            var state = AnyMachine.Start(model, chance);
            for (var i = 0; i < 20; i++)
            {
                model.Advance(state, AnyMachine.Around(chance), TimeSpan.FromMinutes(Math.Exp(chance.Between(-3, 8))));
                var effect = model.Effects[0].At(model, state);
                Assert.True(effect.UMicrometres >= 0 && double.IsFinite(effect.UMicrometres) && double.IsFinite(effect.EffectMicrometres));
            }
        },
        iter: 200);

    // A position's gradient turns when the drift goes, so its u may grow although less is unknown; a length's may not.

    private static SizeFeature Size(double nominal) => new()
    {
        Id = "size", ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(5), NominalMillimetres = nominal,
    };
}
