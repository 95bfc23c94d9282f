using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator.Faults;

/// <summary>Faults of control and of valves. The thresholds are those of a technician's table of signatures (common practice, no source).</summary>
public class ControlFaultTests
{
    private static readonly FaultTrial Healthy = FaultTrial.Play("", "", 9, 0, 0);

    [Fact]
    public void F01_a_hunting_loop_swings_regularly_with_a_period_of_4_to_60_minutes()
    {
        var trial = FaultTrial.Play("F01", "ahu2", 9, 1, 9);
        var crossings = Crossings(trial.Of(m => m.Low, 3, 9));
        var halves = crossings.Zip(crossings.Skip(1), (a, b) => (double)(b - a)).ToArray();
        Assert.True(halves.Length >= 5);
        Assert.InRange(halves.Average() * 2, 4, 60);
        Assert.True(Deviation(halves) / halves.Average() < 0.3);
        Assert.True(trial.Span(m => m.Low, 3, 9) >= 0.4);
        Assert.True(trial.Span(m => m.Cooling, 3, 9) >= 0.1);
        Assert.True(Healthy.Span(m => m.Low, 3, 9) < 0.6 * trial.Span(m => m.Low, 3, 9));
    }

    [Fact]
    public void F02_a_compressor_that_cuts_out_starts_more_than_six_times_an_hour()
    {
        double StartsPerHour(string code)
        {
            var trial = FaultTrial.Play(code, "ahu1", 6, 1, 6, s => (s.Medium, s.Unit) = (CoolingMedium.DirectExpansion, "ahu1"));
            var running = trial.Of(m => m.Running, 2, 6);
            return Enumerable.Range(1, running.Length - 1).Count(i => running[i] > running[i - 1]) / 4.0;
        }

        Assert.InRange(StartsPerHour(""), 0.3, 6);
        Assert.True(StartsPerHour("F02") > 6);
    }

    [Fact]
    public void F03_a_sticky_stem_follows_in_jumps_and_makes_the_command_wander()
    {
        var trial = FaultTrial.Play("F03", "ahu2", 9, 1, 9, s => s.Size = 1.5);
        var moved = Moves(trial.Of(m => m.Position, 2, 9));
        var commanded = Moves(trial.Of(m => m.Cooling, 2, 9));
        Assert.True(commanded > 0.9);
        Assert.True(moved < 0.1);
        Assert.True(Moves(Healthy.Of(m => m.Position, 2, 9)) > 0.8);
        Assert.True(trial.Span(m => m.Cooling, 2, 9) > 0.15);
        Assert.True(trial.Of(m => m.Position, 2, 9).Distinct().Count() > 2);
    }

    [Fact]
    public void F04_a_leaking_valve_leaves_the_supply_colder_than_the_return_at_no_command()
    {
        var leaking = FaultTrial.Play("F04", "ahu2", 8, 1, 8, s => s.Size = 1.5);
        var closed = leaking.Minutes.Skip(2 * 60).Where(m => m.Cooling <= 0.02 && m.Heating <= 0.2).ToArray();
        Assert.True(closed.Length > 20);
        Assert.True(closed.Average(m => m.Supply - m.Return) < -1.0);
    }

    [Fact]
    public void F04_at_night_the_heater_works_against_the_leak()
    {
        var leaking = FaultTrial.Play("F04", "ahu2", 20, 1, 20);
        Assert.True(leaking.Mean(m => m.Heating, 16, 19) > 0.2);
        Assert.Equal(0, FaultTrial.Play("", "", 20, 0, 0).Mean(m => m.Heating, 16, 19), 0.01);
    }

    [Fact]
    public void F05_a_stuck_valve_gives_no_supply_for_its_command()
    {
        // The set point goes up and down by 0.4 K so that the command has to move.
        FaultTrial Play(string code) => FaultTrial.Play(code, "ahu2", 9, 1, 9, s => (s.Size, s.Before) = (0.76,
            [.. Enumerable.Range(0, 9).Select(h => new TimedAction(TimeSpan.FromHours(h), new MoveSetpoint("south", h % 2 == 0 ? 20.2 : 19.8)))]));
        var (stuck, free) = (Play("F05"), Play(""));
        Assert.True(stuck.Span(m => m.Cooling, 2, 9) > 0.2);
        Assert.True(Slope(free.Of(m => m.Cooling, 2, 9), free.Of(m => m.Supply - m.Return, 2, 9)) < -2);
        Assert.True(Math.Abs(Slope(stuck.Of(m => m.Cooling, 2, 9), stuck.Of(m => m.Supply - m.Return, 2, 9))) < 0.4);
    }

    [Fact]
    public void F23_heating_and_cooling_run_together()
    {
        var trial = FaultTrial.Play("F23", "ahu2", 6, 1, 6);
        Assert.Equal(240, trial.Of(m => m.Cooling > 0.05 && m.Heating > 0.05 ? 1 : 0, 2, 6).Sum());
        Assert.Equal(0, Healthy.Of(m => m.Cooling > 0.05 && m.Heating > 0.05 ? 1 : 0, 2, 6).Sum());
        Assert.True(trial.Mean(m => m.Cooling, 3, 6) > Healthy.Mean(m => m.Cooling, 3, 6) + 0.15);
    }

    [Fact]
    public void F24_two_units_that_look_at_each_others_zone_go_opposite_ways()
    {
        var trial = FaultTrial.Play("F24", "ahu2", 10, 1, 10);
        var (here, there) = (trial.Of(m => m.Cooling - m.Heating, 1, 7), trial.Of(m => m.OtherCooling, 1, 7));
        Assert.True(Correlation(here, there) < -0.6, Correlation(here, there).ToString());
    }

    [Fact]
    public void F28_a_wide_dead_band_makes_a_saw_tooth_higher_than_itself()
    {
        var trial = FaultTrial.Play("F28", "ahu2", 9, 1, 9);
        Assert.InRange(trial.Span(m => m.Low, 3, 9), 1.0, 3.2);
        Assert.True(trial.Of(m => m.Cooling, 3, 9).Count(c => c is < 0.05 or > 0.9) > 0.9 * 360);
    }

    [Fact]
    public void F33_a_command_set_by_hand_stays_to_the_digit_while_the_air_moves()
    {
        var trial = FaultTrial.Play("F33", "ahu2", 9, 1, 9);
        Assert.Single(trial.Said("ahu2/cool", 2, 9).Distinct());
        Assert.True(trial.Span(m => m.Low, 2, 9) > 0.3);
        Assert.True(Healthy.Said("ahu2/cool", 2, 9).Distinct().Count() > 50);
    }

    [Fact]
    public void F34_a_loop_without_anti_windup_overshoots_after_a_stand_still()
    {
        double Undershoot(string code)
        {
            var trial = FaultTrial.Play(code, "ahu2", 8, 0, 8, s => s.Before =
                [new TimedAction(TimeSpan.FromHours(2), new SwitchFan("ahu2", false)), new TimedAction(TimeSpan.FromHours(3.5), new SwitchFan("ahu2", true))]);
            return 20.0 - trial.Of(m => m.Low, 3.5, 8).Min();
        }

        Assert.True(Undershoot("F34") > 0.4);
        Assert.True(Undershoot("F34") > Undershoot("") + 0.2);
    }

    private static List<int> Crossings(double[] values)
    {
        var mean = values.Average();
        return [.. Enumerable.Range(1, values.Length - 1).Where(i => (values[i - 1] < mean) != (values[i] < mean))];
    }

    private static double Deviation(double[] values)
    {
        var mean = values.Average();
        return Math.Sqrt(values.Average(v => (v - mean) * (v - mean)));
    }

    private static double Moves(double[] values) =>
        Enumerable.Range(1, values.Length - 1).Count(i => Math.Abs(values[i] - values[i - 1]) > 1e-4) / (double)(values.Length - 1);

    private static double Slope(double[] x, double[] y)
    {
        var (mx, my) = (x.Average(), y.Average());
        return x.Zip(y, (a, b) => (a - mx) * (b - my)).Sum() / x.Sum(a => (a - mx) * (a - mx));
    }

    private static double Correlation(double[] x, double[] y) => Slope(x, y) * Deviation(x) / Deviation(y);
}
