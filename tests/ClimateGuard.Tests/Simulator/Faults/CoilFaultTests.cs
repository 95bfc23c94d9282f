using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator.Faults;

/// <summary>Faults of coils, water, refrigerant, damper and air flow.</summary>
public class CoilFaultTests
{
    private static readonly FaultTrial Healthy = FaultTrial.Play("", "", 9, 0, 0);

    [Fact]
    public void F06_a_unit_at_its_limit_does_not_bring_the_air_down()
    {
        var trial = FaultTrial.Play("F06", "ahu2", 9, 1, 9, s => s.Size = 1.3);
        var late = trial.Minutes.Skip(4 * 60).Take(4 * 60).ToArray();
        Assert.True(late.Count(m => m.Cooling >= 0.95) > 0.9 * late.Length);
        Assert.True(late.Average(m => m.Low) > 20.2);
    }

    [Fact]
    public void F07_a_loaded_filter_shows_in_pressure_flow_and_a_colder_supply()
    {
        var trial = FaultTrial.Play("F07", "ahu1", 9, 1, 9, s => s.Unit = "ahu1");
        var healthy = FaultTrial.Play("", "", 9, 0, 0, s => s.Unit = "ahu1");
        Assert.True(trial.Mean(m => m.FilterPascals, 4, 9) > 1.5 * healthy.Mean(m => m.FilterPascals, 4, 9));
        Assert.InRange(trial.Mean(m => m.Flow, 4, 9), 0.55, 0.65);
        Assert.True(trial.Mean(m => m.Supply, 4, 9) < healthy.Mean(m => m.Supply, 4, 9) - 1.0);
        Assert.True(trial.Said("ahu1/filterdp", 4, 9).Average() > 1.5 * healthy.Said("ahu1/filterdp", 4, 9).Average());
    }

    [Fact]
    public void F08_a_fouled_coil_needs_more_command_for_the_same_heat()
    {
        var trial = FaultTrial.Play("F08", "ahu2", 9, 1, 9);
        double Index(FaultTrial t) => t.Mean(m => m.Return - m.Supply, 4, 9) / t.Mean(m => m.Cooling, 4, 9);
        Assert.InRange(Index(trial) / Index(Healthy), 0.4, 0.85);
        Assert.True(trial.Mean(m => m.Cooling, 4, 9) > 1.2 * Healthy.Mean(m => m.Cooling, 4, 9));
    }

    [Fact]
    public void F08_ice_comes_and_goes_with_the_running_time()
    {
        var ice = FaultTrial.Play("", "", 10, 0, 0, s =>
        {
            (s.Medium, s.Unit) = (CoolingMedium.DirectExpansion, "ahu1");
            s.Before = [new TimedAction(TimeSpan.FromHours(1), new IceCoil("ahu1", 1.5)), new TimedAction(TimeSpan.FromHours(1), new AddHeat("north", 14_000))];
        });
        var stage = ice.Cell.Room.FindAirHandler("ahu1")!.Compressor!;
        Assert.True(stage.IceShare > 0.3);
        Assert.True(ice.Of(m => m.Supply, 6, 10).Max() > ice.Of(m => m.Supply, 1, 2).Min() + 2);
    }

    [Fact]
    public void F09_warm_water_takes_both_units_to_their_limit()
    {
        var trial = FaultTrial.Play("F09", "cell4", 9, 1, 9, s => s.Size = 1.5);
        Assert.True(trial.Said("chw/sup", 2, 9).Average() > 7 + 2);
        Assert.True(trial.Mean(m => m.Cooling, 4, 9) > 0.9);
        Assert.True(trial.Mean(m => m.OtherCooling, 4, 9) > 0.9);
    }

    [Fact]
    public void F10_little_refrigerant_runs_longer_for_a_smaller_step()
    {
        FaultTrial Play(string code) => FaultTrial.Play(code, "ahu1", 9, 1, 9, s => (s.Medium, s.Unit) = (CoolingMedium.DirectExpansion, "ahu1"));
        var (low, healthy) = (Play("F10"), Play(""));
        Assert.True(low.Mean(m => m.Running, 3, 9) > 1.4 * healthy.Mean(m => m.Running, 3, 9));
        Assert.True(low.Of(m => m.Return - m.Supply, 3, 9).Max() < 0.8 * healthy.Of(m => m.Return - m.Supply, 3, 9).Max());
        Assert.Equal(healthy.Mean(m => m.Flow, 3, 9), low.Mean(m => m.Flow, 3, 9), 1e-9);
    }

    [Fact]
    public void F11_a_dirty_condenser_loses_most_when_it_is_hot_outdoors()
    {
        FaultTrial Play(string code, double later) => FaultTrial.Play(code, "ahu1", 6, 0, 6, s =>
        {
            (s.Medium, s.Unit, s.Later) = (CoolingMedium.DirectExpansion, "ahu1", TimeSpan.FromHours(later));
            s.Before = [new TimedAction(TimeSpan.Zero, new AddHeat("north", 6_000))];
        });
        double Lost(double later) => Play("", later).Of(m => m.Return - m.Supply, 1, 6).Max() - Play("F11", later).Of(m => m.Return - m.Supply, 1, 6).Max();
        var (day, night) = (Lost(3), Lost(15));
        Assert.True(day > night + 1.0, FormattableString.Invariant($"day {day:0.00} night {night:0.00}"));
        Assert.True(Play("F11", 3).Of(m => m.Amperes, 1, 6).Max() > Play("", 3).Of(m => m.Amperes, 1, 6).Max() + 1);
    }

    [Fact]
    public void F12_a_torn_belt_leaves_the_status_on_and_takes_the_air()
    {
        var trial = FaultTrial.Play("F12", "ahu2", 2, 1, 2);
        Assert.True(trial.Cell.Room.FindAirHandler("ahu2")!.Fan.Running || trial.Minutes[100].Flow == 0);
        Assert.True(trial.Minutes[65].Low - trial.Minutes[59].Low > 1.0);
        Assert.Equal(0, trial.Minutes[100].Flow, 1e-9);
    }

    [Fact]
    public void F21_supply_that_returns_at_once_leaves_the_return_near_the_supply()
    {
        var trial = FaultTrial.Play("F21", "ahu2", 9, 1, 9);
        double Ratio(FaultTrial t) => t.Mean(m => (m.Low - m.Return) / (m.Low - m.Supply), 4, 9);
        Assert.True(Ratio(trial) > 0.4);
        Assert.True(Ratio(Healthy) < 0.2);
    }

    [Fact]
    public void F26_a_stuck_damper_shows_in_the_mixed_air()
    {
        FaultTrial Play(string code) => FaultTrial.Play(code, "ahu1", 9, 1, 9, s => (s.OutdoorAir, s.Unit) = (true, "ahu1"));
        double Share(FaultTrial t) => t.Mean(m => (m.Mixed - m.Return) / (m.Outdoor - m.Return), 3, 8);
        Assert.Equal(0.15, Share(Play("")), 0.02);
        Assert.Equal(0.70, Share(Play("F26")), 0.02);
    }

    [Fact]
    public void F26_a_healthy_economiser_takes_outdoor_air_when_it_is_cool()
    {
        var night = FaultTrial.Play("", "", 5, 0, 0, s => (s.OutdoorAir, s.Unit, s.Later) = (true, "ahu1", TimeSpan.FromHours(21)));
        Assert.True(night.Mean(m => (m.Mixed - m.Return) / (m.Outdoor - m.Return), 1, 4) > 0.25);
    }

    [Fact]
    public void F31_a_slower_fan_passes_less_and_says_so()
    {
        var trial = FaultTrial.Play("F31", "ahu2", 9, 1, 9);
        Assert.Equal(0.7, trial.Mean(m => m.Flow, 3, 9), 0.01);
        Assert.True(trial.Mean(m => m.Return - m.Supply, 3, 9) > 1.2 * Healthy.Mean(m => m.Return - m.Supply, 3, 9));
        Assert.True(trial.Mean(m => m.FilterPascals, 3, 9) < 0.6 * Healthy.Mean(m => m.FilterPascals, 3, 9));
    }
}
