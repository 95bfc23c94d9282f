using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator.Faults;

/// <summary>Faults of envelope, load, humidity, power, set point and coolant.</summary>
public class RoomFaultTests
{
    private static readonly FaultTrial Healthy = FaultTrial.Play("", "", 24, 0, 0);

    [Fact]
    public void F16_an_open_door_brings_the_zone_towards_the_hall_in_heat_and_water()
    {
        var trial = FaultTrial.Play("F16", "door/roller", 8, 6, 6.5);
        Assert.InRange(trial.Of(m => m.Low, 6, 6.5).Max() - trial.Minutes[359].Low, 0.3, 2.0);
        Assert.True(trial.Minutes[389].Humidity > trial.Minutes[359].Humidity + 0.3);
        Assert.Contains(1.0, trial.Said("door/roller", 0, 8));
    }

    [Fact]
    public void F16_a_door_without_a_contact_says_nothing()
    {
        var trial = FaultTrial.Play("", "", 8, 0, 0, s => s.Before =
            [new TimedAction(TimeSpan.FromHours(6), new MoveUnseenDoor("south", true)), new TimedAction(TimeSpan.FromHours(6.5), new MoveUnseenDoor("south", false))]);
        Assert.True(trial.Of(m => m.Low, 6, 6.5).Max() > trial.Minutes[359].Low + 0.3);
        Assert.DoesNotContain(1.0, trial.Said("door/roller", 0, 8));
    }

    // Twice 280 W/K over 8 K is 2.2 kW; the supply of 7.3 kW/K must be 0.3 K colder for it.
    [Fact]
    public void F17_a_leaky_envelope_costs_what_its_conductance_says()
    {
        var trial = FaultTrial.Play("F17", "south", 12, 1, 12);
        var more = trial.Mean(m => m.Return - m.Supply, 4, 10) - Healthy.Mean(m => m.Return - m.Supply, 4, 10);
        Assert.InRange(more, 0.15, 0.55);
    }

    [Fact]
    public void F19_a_zone_at_its_limit_follows_the_hall()
    {
        var trial = FaultTrial.Play("F19", "south", 12, 1, 12);
        Assert.True(Slope(trial, 2, 12) > 0.10);
        Assert.True(Math.Abs(Slope(Healthy, 2, 12)) < 0.05);
    }

    [Fact]
    public void F20_air_that_does_not_mix_is_warm_under_the_roof()
    {
        var trial = FaultTrial.Play("F20", "south", 9, 1, 9);
        Assert.True(trial.Mean(m => (m.High - m.Low) / 3.0, 3, 9) > 0.5);
        Assert.InRange(Healthy.Mean(m => (m.High - m.Low) / 3.0, 3, 9), -0.1, 0.1);
    }

    [Fact]
    public void F22_a_set_back_moves_the_plateau_and_not_the_quality_of_control()
    {
        var trial = FaultTrial.Play("F22", "south", 12, 1, 12);
        Assert.Equal(1.0, trial.Mean(m => m.Low, 4, 12) - Healthy.Mean(m => m.Low, 4, 12), 0.1);
        Assert.Equal(Healthy.Span(m => m.Low, 4, 12), trial.Span(m => m.Low, 4, 12), 0.2);
    }

    [Fact]
    public void F25_a_heat_step_is_answered_by_a_colder_supply()
    {
        var trial = FaultTrial.Play("F25", "M3", 6, 1, 6);
        Assert.Equal(8.0, trial.Mean(m => m.Power, 2, 6) - Healthy.Mean(m => m.Power, 2, 6), 0.01);
        Assert.InRange(Healthy.Mean(m => m.Supply, 3, 6) - trial.Mean(m => m.Supply, 3, 6), 0.7, 1.5);
        Assert.Equal(20.0, trial.Mean(m => m.Low, 3, 6), 0.15);
    }

    // Dew point of 68 % at 22 degC: 15.8 degC (psychrometric chart); the dielectric stands at 20.
    [Fact]
    public void F27_without_drying_the_air_grows_damp()
    {
        var trial = FaultTrial.Play("F27", "cell4", 24, 1, 24);
        Assert.True(trial.Minutes[^1].Humidity > 60);
        Assert.InRange(Healthy.Minutes[^1].Humidity, 44, 50);
        Assert.Equal(15.8, HumidAir.DewPointCelsius(HumidAir.Share(22, 68)), 0.1);
    }

    [Fact]
    public void F29_a_neighbour_behind_a_thin_wall_leads_the_zone()
    {
        var trial = FaultTrial.Play("F29", "south", 12, 1, 12);
        Assert.True(trial.Mean(m => m.Cooling, 6, 12) > Healthy.Mean(m => m.Cooling, 6, 12) + 0.1);
    }

    [Fact]
    public void F30_a_power_event_silences_the_gateways_stops_the_fans_and_overshoots()
    {
        var trial = FaultTrial.Play("F30", "cell4", 6, 1, 1);
        Assert.True(trial.Said("air/s1", 0, 6).Length < Healthy.Said("air/s1", 0, 6).Length);
        Assert.InRange(trial.Said("air/s1", 0, 7).Length, (6 * 360) - 14, (6 * 360) - 10);
        Assert.Equal(0, trial.Minutes[70].Flow, 1e-9);
        Assert.Equal(1, trial.Minutes[80].Flow, 1e-9);
        Assert.True(trial.Of(m => m.Low, 1, 2).Max() > 20.8);
    }

    // 4.9 MJ/K, 6 kW: 4.4 K/h at first.
    [Fact]
    public void F32_coolant_without_its_chiller_rises_at_Q_over_C()
    {
        var trial = FaultTrial.Play("F32", "M3", 4, 1, 4);
        var said = trial.Said("m3/coolant", 0, 4);
        Assert.InRange(said[^1] - said[720], 5, 9);
        Assert.InRange((said[(int)(1.6 * 360)] - said[(int)(1.1 * 360)]) * 2, 3.0, 5.0);
    }

    private static double Slope(FaultTrial trial, double from, double until)
    {
        var (x, y) = (trial.Of(m => m.Hall, from, until), trial.Of(m => m.Low, from, until));
        var (mx, my) = (x.Average(), y.Average());
        return x.Zip(y, (a, b) => (a - mx) * (b - my)).Sum() / x.Sum(a => (a - mx) * (a - mx));
    }
}
