using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Effect;

public sealed class EffectTermTests
{
    private static readonly DepthFeature Depth = new()
    {
        Id = "depth", ToleranceMillimetres = 0.1, Budget = BudgetRule.Absolute(30), NominalMillimetres = 0,
    };

    // Column of 2 m, 0.5 K over 0.6 m, α 11: tip α·g·H²/2 = 18.3 µm, with α 11.5 19 µm; a gradient since the datum was probed, so drift.
    [Fact]
    public void A_bent_column_moves_the_tool_and_probing_again_takes_that_away()
    {
        var bend = new GradientBend { Body = BendingBody.Column, LengthMillimetres = 2000, ThicknessMillimetres = 600, AcrossKelvins = 0.5, AlphaMicrometresPerMetreKelvin = 11.5 };
        var effect = Of(Some.Holes() with { Bending = bend }, 20, 20);
        Assert.Equal(2 * 19.17, effect.DriftMicrometres, 0.01);
        Assert.Equal(0, effect.MismatchMicrometres, 1e-9);
        Assert.True(effect.UMicrometres >= 0.4 * effect.DriftMicrometres);
    }

    // Steel plate of 1 m, 50 mm thick, 1 K: bow 28.75 µm; granite and disc by the same arc (Roark, from memory).
    [Theory]
    [InlineData(BendingBody.Plate, 1000, 50, 28.75)]
    [InlineData(BendingBody.Disc, 500, 50, 28.75)]
    public void A_bent_plate_or_disc_counts_as_mismatch(BendingBody body, double length, double thickness, double micrometres)
    {
        var bend = new GradientBend { Body = body, LengthMillimetres = length, ThicknessMillimetres = thickness, AcrossKelvins = 1 };
        var effect = Of(Depth with { Bending = bend }, 20, 20);
        Assert.Equal(micrometres, effect.MismatchMicrometres, 1e-9);
        Assert.Equal(0, effect.DriftMicrometres);
        Assert.InRange(effect.UMicrometres, 0.4 * micrometres, 0.5 * micrometres);
    }

    // Aluminium on steel, 30 + 30 mm, 900 mm, 2 K: 56 µm, with equal moduli 61 µm (Timoshenko 1925).
    [Theory]
    [InlineData(68.33, 56)]
    [InlineData(205, 61)]
    public void A_plate_bolted_to_another_material_bows(double partModulus, double micrometres)
    {
        var bolted = new BoltedPlate
        {
            LengthMillimetres = 900, PartThicknessMillimetres = 30, SubplateThicknessMillimetres = 30, PartModulusGigapascals = partModulus,
        };
        var model = new ThermalModel(Some.Machine(), Some.Disc(Depth with { Bolted = bolted }) with { Material = Some.Steel(23.5) });
        var state = model.Settled(new Surroundings(22));
        Assert.Equal(-micrometres, model.Effects[0].At(model, state).EffectMicrometres, 0.6);
        Assert.Equal(0, model.Effects[0].At(model, model.Settled(new Surroundings(20))).EffectMicrometres, 1e-9);
    }

    // (q + p)·αs·dTs − q·αf·dTf − p·αp·dTp with q 0.5, p 0.3 m, scale 10.5 at +1, steel fixture at +2, aluminium 23.8 at +3 K: 8.4 − 11.5 − 21.42.
    [Fact]
    public void A_pin_of_the_fixture_brings_its_own_length_along()
    {
        var feature = new DistanceFeature
        {
            Id = "d", ToleranceMillimetres = 0.1, Budget = BudgetRule.Absolute(30), NominalMillimetres = 300,
            FixturePin = new FixturePin { DistanceMillimetres = 500 },
        };
        var model = new ThermalModel(Some.Machine(10.5), Some.Disc(feature) with { Material = Some.Steel(23.8) });
        var state = Some.StateOf(model, 23, 21);
        ThermalModel.LoadPallet(state, new Celsius(22), new Kelvins(0));
        Assert.Equal(-24.52, model.Effects[0].At(model, state).EffectMicrometres, 1e-9);
        Assert.Contains(model.Effects[0].UncertaintyAt(model, state), share => share.Label == "expansion of the fixture up to the pin" && share.Micrometres > 0);
    }

    // Screw 600 mm from its bearing, 11.5, +5 K since the probing: 34.5 µm at the datum, gone when it is probed again; the scale part stays.
    [Fact]
    public void A_warm_screw_shifts_everything_until_it_is_probed_and_stretches_the_pattern_for_good()
    {
        var machine = Some.Machine() with { Scale = new Scale { AlphaMicrometresPerMetreKelvin = 11.5, TimeConstant = TimeSpan.FromMinutes(1), Screw = new Screw { FixedBearingMillimetres = -600, RiseKelvins = 5 } } };
        var model = new ThermalModel(machine, Some.Disc(Some.Holes(400) with { Points = [new(400, 0), new(-400, 0)] }));
        var state = Some.StateOf(model, 20, 20);
        model.Advance(state, new Surroundings(20, SpindleLoad: 1), TimeSpan.FromHours(2));
        Assert.Equal(25, state[StateLayout.Scale], 1e-6);
        Assert.Equal(34.5, model.DriftMicrometres(state, Axis.X), 1e-4);
        Assert.Equal(2 * (34.5 + (0.4 * 11.5 * 5)), model.Effects[0].At(model, state).EffectMicrometres, 0.3);

        model.ObserveReprobe(state, Axis.X, -34.5, 1);
        model.ProbeDatum(state, [Axis.X]);

        var after = model.Effects[0].At(model, state);
        Assert.Equal(0, after.DriftMicrometres, 1e-9);
        Assert.Equal(2 * 0.4 * 11.5 * 5, after.MismatchMicrometres, 0.3);
    }

    [Fact]
    public void A_term_counts_in_the_probability_of_a_cut_in_both_kinds_of_path()
    {
        var bend = new GradientBend { Body = BendingBody.Plate, LengthMillimetres = 1000, ThicknessMillimetres = 50, AcrossKelvins = 1 };
        var model = new ThermalModel(Some.Machine(), Some.Disc(Depth with { Bending = bend, NominalMillimetres = 50 }));
        var cut = new CutAhead { Surroundings = new Surroundings(20), Planned = TimeSpan.FromMinutes(20), Paths = 4000 };
        var state = Some.StateOf(model, 20, 20);

        // 28.75 ± 11.5 µm against 30 µm: 46 in 100.
        Assert.Equal(0.457, FinishCutRisk.Over(model, state, cut, new Policies())[0].Probability, 0.03);
        Assert.Equal(0.457, CutPaths.Exceedance(model, state, cut, [TimeSpan.FromMinutes(20)])[0], 0.03);
    }

    private static FeatureEffect Of(Feature feature, double part, double scale)
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc(feature));
        return model.Effects[0].At(model, Some.StateOf(model, part, scale));
    }
}
