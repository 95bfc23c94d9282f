using ClimateGuard.Plant;
using ClimateGuard.Tests.Thermal.Risk;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.Observer;

/// <summary>How much warmer it is around a scale than the sensors say changes over a shift, not over a cut.</summary>
public sealed class ScaleSurroundingsTests
{
    [Fact]
    public void What_is_not_known_of_the_scale_is_the_same_whether_it_lasts_or_not_but_over_a_cut_it_exceeds_less_often()
    {
        var (lasting, passing) = (Exceedance(0.9), Exceedance(0));
        Assert.Equal(lasting.U, passing.U, 0.02 * passing.U);
        Assert.True(lasting.Probability < 0.9 * passing.Probability, $"{lasting.Probability} against {passing.Probability}");
    }

    [Fact]
    public void What_a_sensor_on_the_scale_taught_is_forgotten_over_the_shift()
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier);
        var state = model.Settled(new Surroundings(20));
        var before = state.StandardDeviation(StateLayout.Scale);
        for (var minute = 0; minute < 120; minute++)
        {
            model.Advance(state, new Surroundings(20), TimeSpan.FromMinutes(1));
            model.ObserveScale(state, new Celsius(20.2), new Kelvins(0.05));
        }

        Assert.InRange(state[StateLayout.ScaleOffset], 0.05, 0.2);
        Assert.True(state.StandardDeviation(StateLayout.Scale) < before / 2);

        model.Advance(state, new Surroundings(20), TimeSpan.FromHours(48));
        Assert.Equal(0, state[StateLayout.ScaleOffset], 0.01);
        Assert.Equal(before, state.StandardDeviation(StateLayout.Scale), 0.35 * before);
    }

    private static (double U, double Probability) Exceedance(double slowShare)
    {
        var model = new ThermalModel(Shop.Horizontal, Shop.Carrier, new ThermalNoise { ScaleSlowShare = slowShare, ScaleKelvins = 0.3, AirForecastKelvins = 0.01 });
        var state = Shop.Loaded(model, 19.2, u: 0.02);
        var cut = new CutAhead { Surroundings = new Surroundings(20), Planned = TimeSpan.FromMinutes(120), Paths = 20_000 };
        var risk = Assert.Single(FinishCutRisk.Over(model, state, cut, new Policies()));
        return (risk.Now.UMicrometres, risk.Probability);
    }
}
