using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>A rule of the trade (common practice, no source): tight hole positions on large rotors need the room within ±3 °F.</summary>
public sealed class RuleOfTheTrade
{
    private const double ThreeFahrenheit = 3 * 5.0 / 9.0;

    [Fact]
    public void Three_degrees_Fahrenheit_move_holes_at_400_mm_by_7_7_micrometres_and_their_position_by_15_3()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc());
        var state = Some.StateOf(model, 20 + ThreeFahrenheit, 20);

        var effect = model.Effects[0].At(model, state);

        Assert.Equal(15.3, effect.EffectMicrometres, 0.05);
        Assert.Equal(7.7, effect.EffectMicrometres / 2, 0.05);
    }

    [Fact]
    public void Nothing_moves_when_part_and_scale_share_expansion_and_temperature()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc());
        var state = Some.StateOf(model, 20 + ThreeFahrenheit, 20 + ThreeFahrenheit);

        Assert.Equal(0.0, model.Effects[0].At(model, state).EffectMicrometres, 1e-12);
    }

    [Fact]
    public void A_disc_three_degrees_off_with_18_micrometres_of_budget_may_be_cut_and_eight_degrees_off_may_not()
    {
        var model = new ThermalModel(Some.Machine(), Some.Disc());
        var cut = new CutAhead { Surroundings = new Surroundings(20), Planned = TimeSpan.FromMinutes(35) };

        var near = FinishCutRisk.Over(model, Some.StateOf(model, 20.1, 20), cut, new Policies());
        var far = FinishCutRisk.Over(model, Some.StateOf(model, 28, 20), cut, new Policies());

        Assert.Equal(Answer.Go, near[0].Answer);
        Assert.Equal(Answer.Hold, far[0].Answer);
    }
}
