using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Risk;

public sealed class Actions
{
    [Fact]
    public void Drift_alone_is_cured_by_probing_again_in_two_minutes()
    {
        var (model, state) = DriftedDepth();

        var actions = RankedActions.For(Shop.Question(model, state, Shop.Hold(air: 21)));

        Assert.Equal(ActionKind.Reprobe, actions[0].Kind);
        Assert.Equal(TimeSpan.FromMinutes(2), actions[0].Takes);
        Assert.True(actions[0].Result!.Probability < 0.1);
        Assert.True(Kind(actions, ActionKind.StartNow).Result!.Probability > 0.9);
    }

    [Fact]
    public void Mismatch_is_not_cured_by_probing_again()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);

        var actions = RankedActions.For(Shop.Question(model, Shop.Loaded(model, 12), Shop.Hold(paths: 300)));

        Assert.False(Kind(actions, ActionKind.Reprobe).ReachesSafety);
        Assert.True(Kind(actions, ActionKind.Rinse).ReachesSafety);
    }

    [Fact]
    public void A_fan_is_quicker_than_still_air_and_a_rinse_quicker_than_a_fan()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var hold = Shop.Hold() with { Horizon = TimeSpan.FromHours(8) };

        var actions = RankedActions.For(Shop.Question(model, Shop.Loaded(model, 14), hold));

        Assert.True(Kind(actions, ActionKind.Rinse).Takes < Kind(actions, ActionKind.Fan).Takes);
        Assert.True(Kind(actions, ActionKind.Fan).Takes < Kind(actions, ActionKind.Soak).Takes);
    }

    [Theory]
    [InlineData(20.4, true)]
    [InlineData(20.6, false)]
    [InlineData(null, false)]
    public void Rinsing_needs_coolant_within_half_a_kelvin_of_the_scale(double? coolant, bool possible)
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var question = Shop.Question(model, Shop.Loaded(model, 12), Shop.Hold()) with { Coolant = coolant is { } value ? new Celsius(value) : null };

        var condition = Kind(RankedActions.For(question), ActionKind.Rinse).Conditions[0];

        Assert.Equal(ActionConditionKind.CoolantNearScale, condition.Kind);
        Assert.Equal(possible, condition.Met);
    }

    [Fact]
    public void An_uncertain_part_is_better_measured_and_the_answer_says_how_likely_that_ends_the_wait()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = Shop.Loaded(model, 20.6, u: 1.0);

        var contact = Kind(RankedActions.For(Shop.Question(model, state, Shop.Hold(Medium.Flood))), ActionKind.ContactTemperature).Measurement!;

        // 4.37 µm/K: the part must be within about ±1.3 K of 20 °C once known; its temperature after 3 min of hold is 20.2 ± 0.9 K or so.
        Assert.InRange(contact.StartsAtOnce, 0.6, 0.98);
        Assert.InRange(contact.Holds, 0.0, 0.4);
        Assert.True(contact.UAfterMicrometres < contact.UBeforeMicrometres / 2);
        Assert.InRange(contact.Undecided, 0, 1);
    }

    [Fact]
    public void An_offset_takes_a_known_effect_off_and_the_wrong_sign_doubles_it()
    {
        var model = new ThermalModel(Shop.Horizontal with { Drift = [] }, Shop.Carrier);
        var hold = Shop.Hold() with { Cut = new CutAhead { Surroundings = new Surroundings(22.5, Medium.Submerged, 22.5) } };
        var state = model.Settled(new Surroundings(20));
        model.LoadPart(state, new Celsius(22.5), new Kelvins(0.05));
        hold = hold with { Now = new Surroundings(22.5, Medium.Submerged, 22.5) };

        var offset = Kind(RankedActions.For(Shop.Question(model, state, hold)), ActionKind.Offset).Offset!;

        // The part is 2.5 K warm and the scale follows the air: the part would be small later, so the program grows.
        Assert.True(offset.ScaleFactor > 1.00001);
        Assert.True(offset.AsProposed.Probability < 0.1);
        Assert.True(offset.SignTurned.Probability > 0.95);
    }

    [Fact]
    public void An_offset_is_not_proposed_when_the_effect_is_not_known_well()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);

        var offset = Kind(RankedActions.For(Shop.Question(model, Shop.Loaded(model, 22, u: 2), Shop.Hold())), ActionKind.Offset);

        Assert.Null(offset.Offset);
        Assert.False(offset.Conditions.Single(condition => condition.Kind == ActionConditionKind.EffectWellKnown).Met);
    }

    [Fact]
    public void A_feature_that_holds_may_be_cut_while_another_waits()
    {
        var hole = new SizeFeature { Id = "pin", NominalMillimetres = 12, ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(6) };
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier with { Features = [.. Shop.Carrier.Features, hole] });

        var other = Kind(RankedActions.For(Shop.Question(model, Shop.Loaded(model, 12), Shop.Hold())), ActionKind.Resequence);

        Assert.True(other.Possible);
        Assert.Equal(["pin"], other.Features);
    }

    [Fact]
    public void A_cold_spindle_is_warmed_up_before_a_deep_cut()
    {
        var machine = Shop.Horizontal with { Drift = [], Spindle = [new(Axis.Z, 18, TimeSpan.FromMinutes(12))] };
        var depth = new DepthFeature { Id = "depth", NominalMillimetres = 10, ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(4) };
        var model = new ThermalModel(machine, Shop.Carrier with { Features = [depth] });
        var hold = Shop.Hold() with { Cut = new CutAhead { Surroundings = new Surroundings(20, Medium.Flood, 20, SpindleLoad: 1) } };

        var actions = RankedActions.For(Shop.Question(model, Shop.Loaded(model, 20), hold));

        // 18 µm·exp(−t/12 min) is left to grow, ±30 %; below 4 µm with guard band after some 20 to 35 min.
        Assert.InRange(Kind(actions, ActionKind.WarmUp).Exposure!.Value.TotalMinutes, 15, 40);
        Assert.Equal(ActionKind.WarmUp, actions[0].Kind);
    }

    [Fact]
    public void Another_machine_is_named_with_its_own_probability()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var there = new ThermalModel(Shop.Horizontal with { Id = "M1" }, Shop.Carrier with { VolumeToAreaMillimetres = 21 });
        var question = Shop.Question(model, Shop.Loaded(model, 12), Shop.Hold()) with
        {
            Coolant = null,
            Others = [new(there, Shop.Loaded(there, 20), Shop.Hold().Cut, TimeSpan.FromMinutes(40))],
        };

        var actions = RankedActions.For(question);

        Assert.Equal(ActionKind.OtherMachine, actions[0].Kind);
        Assert.Equal("M1", actions[0].Machine);
    }

    [Fact]
    public void A_wet_part_is_dried_and_a_dry_one_need_not_be()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);

        Assert.True(Kind(RankedActions.For(Shop.Question(model, Shop.Loaded(model, 20), Shop.Hold(Medium.Flood))), ActionKind.DryOff).Possible);
        Assert.False(Kind(RankedActions.For(Shop.Question(model, Shop.Loaded(model, 20), Shop.Hold())), ActionKind.DryOff).Possible);
    }

    private static RankedAction Kind(IReadOnlyList<RankedAction> actions, ActionKind kind) => actions.Single(action => action.Kind == kind);

    private static (ThermalModel Model, ThermalState State) DriftedDepth()
    {
        var machine = Shop.Horizontal with { Drift = [new(Axis.Z, 20, TimeSpan.FromHours(1))] };
        var depth = new DepthFeature { Id = "depth", NominalMillimetres = 10, ToleranceMillimetres = 0.02, Budget = BudgetRule.Absolute(6) };
        var model = new ThermalModel(machine, Shop.Carrier with { Features = [depth] });
        var state = Shop.Loaded(model, 20);
        model.Advance(state, new Surroundings(21), TimeSpan.FromHours(3));
        return (model, state);
    }
}
