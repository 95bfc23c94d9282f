using ClimateGuard.Enclosure;

namespace ClimateGuard.Tests.Published;

/// <summary>APAR (House, Vaezi-Nejad, Whitcomb 2001; NISTIR 6964) and ASHRAE Guideline 36, section 5.16.14. The inequalities are from memory.</summary>
public sealed class AparAndGuideline36
{
    private static readonly AirHandlerSample Heating = new(
        Supply: 30, SupplySetPoint: 30, Mixed: 18, Return: 20, Outdoor: 7, Heating: 0.5, Cooling: 0, Damper: 0.15);

    private static readonly AirHandlerSample Cooling = new(
        Supply: 13, SupplySetPoint: 13, Mixed: 24, Return: 23, Outdoor: 30, Heating: 0, Cooling: 0.6, Damper: 0.15);

    private static readonly AirHandlerSample Free = new(
        Supply: 14, SupplySetPoint: 14, Mixed: 12.9, Return: 22, Outdoor: 10, Heating: 0, Cooling: 0, Damper: 0.7);

    [Fact]
    public void Sound_units_break_no_rule()
    {
        Assert.Empty(Rules(Heating));
        Assert.Empty(Rules(Cooling));
        Assert.Empty(Rules(Free));
        Assert.Empty(Conditions(Heating));
        Assert.Empty(Conditions(Cooling));
        Assert.Empty(Conditions(Free));
    }

    [Fact]
    public void Each_fault_breaks_the_rule_of_its_mode()
    {
        Assert.Contains(1, Rules(Heating with { Supply = 16 }));
        Assert.Contains(2, Rules(Heating with { Mixed = 10 }));
        Assert.Contains(3, Rules(Heating with { Heating = 1, Supply = 25 }));
        Assert.Contains(4, Rules(Heating with { Heating = 1 }));
        Assert.Contains(5, Rules(Free with { Outdoor = 16 }));
        Assert.Contains(7, Rules(Free with { Supply = 18 }));
        Assert.Contains(16, Rules(Cooling with { Supply = 28 }));
        Assert.Contains(19, Rules(Cooling with { Cooling = 1, Supply = 17 }));
        Assert.Contains(10, Rules(Cooling with { Damper = 1, Outdoor = 17, Mixed = 22 }));
        Assert.Contains(22, Rules(Cooling with { Heating = 0.4 }));
        Assert.Contains(25, Rules(Cooling with { Supply = 16 }));
        Assert.Contains(26, Rules(Cooling with { Mixed = 18 }));
        Assert.Contains(27, Rules(Cooling with { Mixed = 33 }));
    }

    [Fact]
    public void Each_fault_meets_the_condition_of_its_state()
    {
        Assert.Contains(2, Conditions(Cooling with { Mixed = 18 }));
        Assert.Contains(3, Conditions(Cooling with { Mixed = 35 }));
        Assert.Contains(5, Conditions(Heating with { Supply = 14 }));
        Assert.Contains(6, Conditions(Heating with { Mixed = 10 }));
        Assert.Contains(7, Conditions(Heating with { Heating = 1, Supply = 25 }));
        Assert.Contains(8, Conditions(Free with { Supply = 18 }));
        Assert.Contains(13, Conditions(Cooling with { Cooling = 1, Supply = 17 }));
    }

    [Fact]
    public void The_combined_thresholds_with_the_defaults() // recomputed: √10
    {
        Within.Absolute(3.162278, new Guideline36Limits().SupplyAgainstMixed, 1e-6);
        Within.Absolute(3.162278, new Guideline36Limits().MixedAgainstOutdoor, 1e-6);
    }

    [Fact]
    public void An_unknown_signal_makes_no_rule_true() =>
        Assert.DoesNotContain(2, Rules(Heating with { Outdoor = double.NaN }));

    private static IReadOnlyList<int> Rules(AirHandlerSample sample) => Apar.True(sample, new AparLimits());

    private static IReadOnlyList<int> Conditions(AirHandlerSample sample) =>
        Guideline36.True(sample, new Guideline36Limits(), Apar.ModeOf(sample, new AparLimits()));
}
