using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator.Faults;

/// <summary>Faults of sensors, and what holds for all faults.</summary>
public class SensorFaultTests
{
    private static readonly FaultTrial Healthy = FaultTrial.Play("", "", 8, 0, 0);

    [Fact]
    public void F13_an_offset_stays_the_same_against_the_neighbours()
    {
        var trial = FaultTrial.Play("F13", "air/s1", 8, 1, 8);
        var (own, neighbour) = (trial.Said("air/s1", 2, 8), trial.Said("air/s2", 2, 8));
        var healthy = Healthy.Said("air/s1", 2, 8).Average() - Healthy.Said("air/s2", 2, 8).Average();
        Assert.Equal(0.6, own.Average() - neighbour.Average() - healthy, 0.03);
    }

    [Fact]
    public void F14_a_stuck_sensor_repeats_its_digits_while_the_others_move()
    {
        var trial = FaultTrial.Play("F14", "air/s1", 8, 1, 8);
        Assert.Single(trial.Said("air/s1", 2, 8).Distinct());
        Assert.True(trial.Said("air/s2", 2, 8).Distinct().Count() > 20);
    }

    [Fact]
    public void F14_a_coarse_sensor_has_few_values()
    {
        var trial = FaultTrial.Play("", "", 8, 0, 0, s => s.Before = [new TimedAction(TimeSpan.FromHours(1), new CoarsenSensor("air/s1", 0.5))]);
        Assert.InRange(trial.Said("air/s1", 2, 8).Distinct().Count(), 1, 4);
    }

    [Fact]
    public void F15_a_badly_placed_sensor_lags_its_neighbours_and_hides_the_door()
    {
        var trial = FaultTrial.Play("F15", "air/s1", 8, 0, 8, s => s.Before =
            [new TimedAction(TimeSpan.FromHours(5), new MoveDoor("door/roller", true)), new TimedAction(TimeSpan.FromHours(5.3), new MoveDoor("door/roller", false))]);
        var (slow, quick) = (trial.Said("air/s1", 5, 8), trial.Said("air/s2", 5, 8));
        Assert.True(Array.IndexOf(slow, slow.Max()) > Array.IndexOf(quick, quick.Max()) + 20);
        Assert.True(slow.Max() - trial.Said("air/s1", 4, 5).Average() < 0.7 * (quick.Max() - trial.Said("air/s2", 4, 5).Average()));
    }

    [Fact]
    public void F18_sun_lifts_one_sensor_and_not_the_others()
    {
        var trial = FaultTrial.Play("F18", "air/s4", 8, 5, 7);
        Assert.InRange(trial.Said("air/s4", 5, 7).Max() - Healthy.Said("air/s4", 5, 7).Max(), 1.5, 2.6);
        Assert.Equal(Healthy.Said("air/s1", 5, 7).Max(), trial.Said("air/s1", 5, 7).Max(), 1e-9);
        Assert.Equal(Healthy.Said("air/s4", 7.5, 8).Average(), trial.Said("air/s4", 7.5, 8).Average(), 0.05);
    }

    [Fact]
    public void Every_fault_is_there_once() =>
        Assert.Equal(Enumerable.Range(1, 34).Select(n => FormattableString.Invariant($"F{n:00}")), FaultCatalogue.All.Select(f => f.Code));

    [Theory]
    [InlineData("F02", "ahu1", "DirectExpansion")]
    [InlineData("F26", "ahu1", "OutdoorAir")]
    [InlineData("F20", "ahu1", "Zone")]
    public void A_fault_that_does_not_fit_says_what_it_needs(string code, string target, string needs) =>
        Assert.Contains(needs, Assert.Throws<ArgumentException>(
            () => FaultCatalogue.Script(DemoCell.Make(), code, target, TimeSpan.Zero, TimeSpan.FromHours(1))).Message);

    [Theory]
    [InlineData("ahu2", "F01,F03,F04,F05,F06,F07,F08,F12,F21,F23,F24,F28,F31,F33,F34")]
    [InlineData("south", "F17,F19,F20,F22,F29")]
    [InlineData("cell4", "F09,F27,F30")]
    public void The_energy_of_the_room_stays_booked_under_every_fault(string target, string codes)
    {
        foreach (var code in codes.Split(','))
        {
            var trial = FaultTrial.Play(code, target, 5, 1, 4);
            Assert.True(trial.Cell.Room.Energy.OpenShare < 0.001, $"{code}: {trial.Cell.Room.Energy.OpenShare}");
        }
    }
}
