using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Machines;

public sealed class MachineWatchTests
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    [Fact]
    public void A_soaked_part_in_a_steady_room_is_ready()
    {
        var machine = new WatchedMachine().Load();

        Assert.Equal(Level.Ready, machine.Outlook.Level);
        Assert.Empty(machine.Alerts);
    }

    [Fact]
    public void A_cold_blank_holds_the_finish_cut_at_once_and_says_how_to_warm_it()
    {
        var machine = new WatchedMachine().Load(startCelsius: 12);

        Assert.Equal(Level.Hold, machine.Outlook.Level);
        Assert.Contains("cold", machine.Outlook.Reason, StringComparison.Ordinal);
        Assert.Contains("Flood the part", machine.Outlook.Action, StringComparison.Ordinal);
        Assert.Single(machine.Alerts, alert => !alert.Cleared && alert.Cause == "hold");
    }

    [Fact]
    public void Flooding_with_coolant_at_20_degrees_ends_the_hold_of_a_cold_blank_within_minutes()
    {
        var machine = new WatchedMachine().Load(startCelsius: 12);
        machine.Take(new CoolantSwitched(machine.Now, "M1", On: true)).For(TimeSpan.FromMinutes(30), Minute);

        Assert.NotEqual(Level.Hold, machine.Outlook.Level);
        Assert.Single(machine.Alerts, alert => alert.Cleared && alert.Cause == "hold");
    }

    [Fact]
    public void Warm_coolant_holds_the_cut_although_the_air_is_fine()
    {
        var machine = new WatchedMachine { Coolant = 23.4 }.Load();
        machine.Take(new CoolantSwitched(machine.Now, "M1", On: true)).For(TimeSpan.FromMinutes(20), Minute);

        Assert.Equal(Level.Hold, machine.Outlook.Level);
        Assert.Contains("Coolant is 23.4 °C", machine.Outlook.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_short_swing_of_the_air_does_not_hold_a_heavy_part()
    {
        var machine = new WatchedMachine().Load();
        machine.Air = 20.9;
        machine.For(TimeSpan.FromMinutes(8), Minute);

        Assert.Equal(Level.Ready, machine.Outlook.Level);
    }

    [Fact]
    public void A_part_nobody_measured_is_not_ready_when_it_may_have_come_from_a_hot_hall()
    {
        var machine = new WatchedMachine { Hall = 29 }.Load(startCelsius: null);

        Assert.NotEqual(Level.Ready, machine.Outlook.Level);
    }

    [Fact]
    public void Measuring_that_part_settles_it()
    {
        var machine = new WatchedMachine { Hall = 24 }.Load(startCelsius: null);
        var before = machine.Outlook.Level;
        machine.Take(new ContactMeasured(machine.Now, "M1") { Value = new Celsius(20.1), Uncertainty = new Kelvins(0.1) });

        Assert.Equal(Level.MeasureFirst, before);
        Assert.Equal(Level.Ready, machine.Outlook.Level);
    }

    [Fact]
    public void Air_that_is_not_known_means_not_known_and_names_the_sensor()
    {
        var machine = new WatchedMachine().Load();
        machine.Air = double.NaN;
        machine.Tick(Minute);

        Assert.Equal(Level.NotKnown, machine.Outlook.Level);
        Assert.Contains("air/a1 is silent", machine.Outlook.Reason, StringComparison.Ordinal);
        Assert.Contains("Do not start", machine.Outlook.Action, StringComparison.Ordinal);
    }

    [Fact]
    public void Coolant_that_runs_but_is_not_known_means_not_known()
    {
        var machine = new WatchedMachine().Load();
        machine.Take(new CoolantSwitched(machine.Now, "M1", On: true));
        machine.Coolant = double.NaN;
        machine.Tick(Minute);

        Assert.Equal(Level.NotKnown, machine.Outlook.Level);
    }

    [Fact]
    public void Coolant_that_does_not_run_may_be_unknown()
    {
        var machine = new WatchedMachine { Coolant = double.NaN }.Load();

        Assert.Equal(Level.Ready, machine.Outlook.Level);
    }

    [Fact]
    public void An_unknown_part_number_is_not_known_and_offers_the_nearest_one()
    {
        var machine = new WatchedMachine().Load(part: "D-2");

        Assert.Equal(Level.NotKnown, machine.Outlook.Level);
        Assert.Contains("did you mean D-1", machine.Outlook.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_job_that_came_before_the_first_reading_is_taken_in_with_it()
    {
        var machine = new WatchedMachine { Air = double.NaN }.Load(startCelsius: 23);
        Assert.Equal(Level.NotKnown, machine.Outlook.Level);

        machine.Air = 20;
        machine.Tick(TimeSpan.FromSeconds(5));

        Assert.Equal(Level.Hold, machine.Outlook.Level);
        Assert.Equal(23.0, machine.Outlook.PartCelsius!.Value, 0.05);
    }

    [Fact]
    public void A_part_soaks_from_the_moment_it_entered_the_cell_not_from_when_it_was_clamped()
    {
        var machine = new WatchedMachine();
        machine.Tick();
        machine.Take(new JobLoaded(machine.Now, "M1")
        {
            Serial = "S1", Part = "D-1", Operation = "40", Start = new Celsius(12), EnteredCell = machine.Now - TimeSpan.FromHours(12),
        });

        Assert.Equal(20.0, machine.Outlook.PartCelsius!.Value, 0.2);
    }

    [Fact]
    public void Unloading_ends_the_outlook_of_the_part()
    {
        var machine = new WatchedMachine().Load(startCelsius: 12);
        machine.Take(new JobLoaded(machine.Now, "M1") { Serial = "", Part = "" });

        Assert.Equal(Level.NoJob, machine.Outlook.Level);
        Assert.Contains(machine.Alerts, alert => alert.Cleared);
    }

    [Fact]
    public void A_new_job_starts_without_coolant()
    {
        var machine = new WatchedMachine().Load();
        machine.Take(new CoolantSwitched(machine.Now, "M1", On: true)).Load(serial: "S2");

        Assert.False(machine.State.CoolantOn);
    }

    [Fact]
    public void Drift_since_the_datum_was_probed_asks_for_a_new_probing_which_clears_it()
    {
        var machine = new WatchedMachine(DriftingCell()).Load();
        machine.Air = 23;
        machine.For(TimeSpan.FromHours(3), Minute);
        Assert.Contains("Probe the datum again", machine.Outlook.Action, StringComparison.Ordinal);
        var drifted = machine.Outlook.Features.Single(f => f.Feature == "pocket");

        machine.Take(new DatumProbed(machine.Now, "M1", [Axis.X, Axis.Y, Axis.Z]));

        Assert.True(Math.Abs(drifted.DriftMicrometres) > 10);
        Assert.Equal(0.0, machine.Outlook.Features.Single(f => f.Feature == "pocket").DriftMicrometres, 1e-9);
    }

    [Fact]
    public void The_earliest_start_of_a_held_cut_is_at_most_five_minutes_old_and_counts_down_until_something_happens()
    {
        var machine = new WatchedMachine().Load(startCelsius: 22);
        var workedOut = new HashSet<DateTimeOffset>();
        for (var minute = 0; minute < 15; minute++)
        {
            var prospect = machine.Tick(Minute).State.Prospect!;
            workedOut.Add(prospect.At);
            Assert.InRange(machine.Now - prospect.At, TimeSpan.Zero, TimeSpan.FromMinutes(4));
            Assert.Equal(prospect.At + Assert.IsType<SafeAt>(prospect.Start).Release, machine.Outlook.EarliestSafe);
        }

        Assert.InRange(workedOut.Count, 3, 4);

        machine.Tick(Minute).Take(new CoolantSwitched(machine.Now, "M1", On: false));
        Assert.Equal(machine.Now, machine.State.Prospect!.At);
    }

    [Fact]
    public void A_sensor_clipped_to_the_part_is_believed()
    {
        var machine = new WatchedMachine().Load(startCelsius: 20, uncertainty: 2);
        machine.PartSensor = 22;
        machine.For(TimeSpan.FromMinutes(3), TimeSpan.FromSeconds(10));

        Assert.Equal(22.0, machine.Outlook.PartCelsius!.Value, 0.2);
    }

    [Fact]
    public void Sequence_numbers_count_up_by_one_and_every_outlook_runs_out()
    {
        var machine = new WatchedMachine().Load();
        machine.For(TimeSpan.FromMinutes(10), TimeSpan.FromSeconds(10));
        var issued = machine.Decisions.OfType<OutlookIssued>().Select(decision => decision.Outlook).ToArray();

        Assert.Equal(Enumerable.Range(1, issued.Length).Select(i => (long)i), issued.Select(outlook => outlook.Seq));
        Assert.All(issued, outlook => Assert.InRange(outlook.ValidUntil - outlook.IssuedAt, Minute, TimeSpan.FromMinutes(10)));
        Assert.InRange(issued.Length, 10, 14);
    }

    [Fact]
    public void A_step_changes_nothing_in_the_state_it_was_given()
    {
        var machine = new WatchedMachine().Load(startCelsius: 15);
        var before = machine.State;
        var part = before.Outlook!.PartCelsius;
        var means = before.Thermal!.Means.ToArray();

        machine.For(TimeSpan.FromHours(1), Minute);

        Assert.Equal(part, before.Outlook!.PartCelsius);
        Assert.Equal(means, before.Thermal!.Means.ToArray());
    }

    [Fact]
    public void A_moment_that_lies_before_the_state_is_taken_at_the_state_s_own_moment()
    {
        var machine = new WatchedMachine().Load();
        var at = machine.State.At;

        machine.Tick(TimeSpan.FromHours(-1));

        Assert.Equal(at, machine.State.At);
    }

    private static Cell DriftingCell() => SmallCell.Of(
        Some.Machine() with { Drift = [new DriftMode(Axis.Z, 7, TimeSpan.FromHours(1))] },
        PartClass.Critical,
        new DepthFeature { Id = "pocket", NominalMillimetres = 30, ToleranceMillimetres = 0.030, Budget = BudgetRule.Absolute(10) });
}
