using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Risk;

/// <summary>Worked cases of an invented week (reference values computed beforehand from first-order formulas, not by this program).</summary>
public sealed class WorkedCases
{
    /// <summary>
    /// An aluminium plate, r = 1.04 m from its corner, 17.5 µm of budget: effect and uncertainty at one moment give the probability. Given are
    /// the whole uncertainties only, so here all of it is put on the part's temperature; what happens before that moment is not part of the case.
    /// </summary>
    [Theory]
    [InlineData(16.8, 7.6, 46)]
    [InlineData(16.8, 3.0, 41)]
    [InlineData(12.8, 3.0, 6)]
    [InlineData(0.0, 2.2, 0)]
    public void Effect_and_uncertainty_at_one_moment_give_so_many_exceedances_in_a_hundred(double effect, double u, double inHundred)
    {
        const double PerKelvin = 2 * 1.04 * 23.8;
        var model = new ThermalModel(
            Some.Machine() with { Scale = new Scale { Compensated = true } },
            Some.Disc(new PositionFeature { Id = "dowels", ToleranceMillimetres = 0.05, Budget = BudgetRule.Absolute(17.5), Points = [new(800, 664.53)] }) with
            {
                Material = Some.Steel(23.8, 0),
            });
        var state = Shop.Loaded(model, 20 + (effect / PerKelvin), u / PerKelvin);
        var cut = new CutAhead { Surroundings = new Surroundings(20, Medium.Still), Paths = 40_000 };

        var risk = FinishCutRisk.Over(model, state, cut, new Policies())[0];

        Assert.Equal(inHundred / 100, risk.Probability, 0.0075);
        Assert.Equal(effect, risk.Now.EffectMicrometres, 0.01);
        Assert.Equal(u, risk.Now.UMicrometres, 0.01);
    }

    [Fact]
    public void A_cold_carrier_is_held_and_seven_to_ten_minutes_of_rinsing_do_what_hours_of_air_would()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = Shop.Loaded(model, 12);

        var actions = RankedActions.For(Shop.Question(model, state, Shop.Hold() with { Horizon = TimeSpan.FromHours(8) }));
        var rinse = actions.Single(action => action.Kind == ActionKind.Rinse);
        var soak = actions.Single(action => action.Kind == ActionKind.Soak);

        Assert.Equal(Answer.Hold, FinishCutRisk.Over(model, state, Shop.Hold().Cut, new Policies())[0].Answer);
        Assert.InRange(rinse.Exposure!.Value.TotalMinutes, 7, 10);
        Assert.True(rinse.Result!.Safe);

        // 250 min bring it to within 1.2 K; with a time constant known to 25 % and the guard band a release takes longer than that.
        Assert.InRange(soak.Takes.TotalMinutes, 250, 400);
        Assert.Equal(ActionKind.Rinse, actions[0].Kind);
    }

    /// <summary>Time constants 132 min in air (h = 10) and 3.7 min under flood (h = 400); to within 1.2 K from 8 K: τ·ln(8/1.2).</summary>
    [Theory]
    [InlineData(Medium.Air, 250)]
    [InlineData(Medium.Flood, 7)]
    public void A_carrier_eight_kelvins_cold_is_within_1_2_kelvins_after(Medium medium, double minutes)
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = Shop.Loaded(model, 12);

        model.Advance(state, new Surroundings(20, medium, 20), TimeSpan.FromMinutes(minutes));

        Assert.Equal(18.8, model.PartTemperature(state).Value, 0.15);
    }

    /// <summary>A chiller trips: 24·(1 − exp(−t/327 min)) K over 20 °C in the tank; a disc, h = 600 W/(m² K), 24 holes on diameter 900, 18 µm.</summary>
    [Fact]
    public void A_tripped_chiller_takes_the_pattern_of_a_disc_out_of_its_budget_after_about_31_minutes()
    {
        var disc = Some.Disc(new PositionFeature
        {
            Id = "holes",
            ToleranceMillimetres = 0.06,
            Budget = BudgetRule.Absolute(18),
            Points = Some.Circle(450, 24),
            Strategy = CuttingStrategy.Interpolated,
        }) with
        {
            Material = Some.Steel(11.6) with { ConductivityWattsPerMetreKelvin = 38 },
            VolumeToAreaMillimetres = 55,
            HalfThicknessMillimetres = 50,
            HeatTransfer = new HeatTransfer { Flood = 600 },
        };
        var model = new ThermalModel(Some.Machine(10.5), disc);
        var state = Shop.Loaded(model, 20);
        var crossed = 0;
        var at30 = 0.0;
        for (var minute = 1; minute <= 60; minute++)
        {
            var coolant = 20 + (24 * (1 - Math.Exp(-(minute - 0.5) / 327)));
            model.Advance(state, new Surroundings(20, Medium.Flood, coolant), TimeSpan.FromMinutes(1));
            var effect = model.Effects[0].At(model, state).EffectMicrometres;
            at30 = minute == 30 ? effect : at30;
            crossed = crossed == 0 && effect > 18 ? minute : crossed;
        }

        Assert.Equal(17.5, at30, 0.75);
        Assert.InRange(crossed, 30, 33);
    }
}
