using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Watch.Plants;

/// <summary>The plant file changes while the cell runs: what stays, what goes, and what is told.</summary>
public sealed class PlantChangeTests
{
    private static readonly Cell Before = SmallCell.Of();

    [Fact]
    public void Every_queued_reading_ends_at_its_own_sensor_whatever_was_inserted_moved_or_removed() =>
        Gen.Select(Sensors, Sensors, Gen.Int[0, 50].Array[1, 200]).Sample((before, after, picks) =>
        {
            var (old, now) = (WithSensors(before), WithSensors(after));
            var bench = new RunningBench(old);
            Queue(bench, old, picks);
            bench.Edit(now);
            Queue(bench, now, picks);

            bench.Round();

            Assert.All(bench.Judged, reading => Assert.Equal(reading.Sensor, NameOf(reading.Value)));
            string[] expected = [.. Names(old, picks).Where(after.Contains), .. Names(now, picks)];
            Assert.Equal(expected, bench.Judged.Select(reading => reading.Sensor));
            Assert.Equal(Names(old, picks).Count(name => !after.Contains(name)), bench.Unreadable.Count);
            Assert.Equal(2 * picks.Length, bench.Judged.Count + bench.Unreadable.Count);
        });

    [Fact]
    public void A_sensor_that_measures_something_else_now_is_another_sensor()
    {
        var humid = Before.Description.Sensors[0] with { Quantity = SensorQuantity.RelativeHumidity, PlausibleHigh = 100 };
        var bench = new RunningBench(Before);
        bench.Send(Before, 0, 20);

        bench.Edit(new Cell(Before.Description with { Sensors = [humid, .. Before.Sensors.Skip(1)] }));
        bench.Round();

        Assert.Empty(bench.Judged);
        var kept = Assert.Single(bench.Unreadable);
        Assert.Equal("air/a1", kept.Topic);
        Assert.StartsWith("20 at 2026-03-02T07:00:00", kept.PayloadStart, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hold_stands_through_an_edit_that_has_nothing_to_do_with_its_budget()
    {
        var bench = new RunningBench(Before).Air().Load(12);
        Assert.Equal(Answer.Hold, bench.Ask("r1").Answer);
        var (alerts, part) = (bench.Decisions.Count(IsRaised), bench.Machine.Outlook.PartCelsius);

        bench.Edit(new Cell(Before.Description with { Name = "Renamed", Sensors = [Extra("air/new"), .. Before.Sensors] }));
        bench.Round(TimeSpan.FromMilliseconds(250));

        Assert.Equal(Level.Hold, bench.Machine.Outlook.Level);
        Assert.NotNull(bench.Machine.Permits.Latch);
        Assert.Equal("S1", bench.Machine.Job!.Serial);
        Assert.Equal(part!.Value, bench.Machine.Outlook.PartCelsius!.Value, 0.01);
        Assert.Equal(alerts, bench.Decisions.Count(IsRaised));
        Assert.Equal("B", bench.Running.Snapshot.ConfigVersion);
        Assert.Equal(Answer.Hold, bench.Ask("r1").Answer);
    }

    [Fact]
    public void A_permit_keeps_the_version_under_which_it_was_given_and_the_next_one_has_the_new()
    {
        var bench = new RunningBench(Before).Air().Load(20);
        var first = bench.Ask("r1").Permit!;

        bench.Edit(new Cell(Before.Description with { Name = "Renamed" }));
        bench.Round(TimeSpan.FromSeconds(1));

        Assert.Equal(first, bench.Machine.Permits.Newest);
        Assert.True(bench.Machine.Permits.Newest!.HoldsAt(bench.Now));
        Assert.Equal(("A", "B"), (first.ConfigVersion, bench.Ask("r2").Permit!.ConfigVersion));
    }

    [Fact]
    public void A_budget_that_the_effect_leaves_takes_the_permit_back_from_the_next_evaluation_on()
    {
        var bench = new RunningBench(Before).Air().Load(19);
        var permit = bench.Ask("r1").Permit!;
        Assert.True(bench.Machine.Permits.Newest!.HoldsAt(bench.Now));

        // 1 K and 11.5 µm/(m K) at 400 mm are 4.6 µm of radius, 9.2 µm of position, of a budget that was 18 µm and is 1.8 µm now.
        bench.Edit(WithFeature(Some.Holes(share: 0.03)));
        bench.Round(TimeSpan.FromSeconds(1));

        Assert.Equal(1.8, bench.Machine.Outlook.Worst!.BudgetMicrometres, 1e-9);
        for (var minute = 0; minute < 5 && bench.Machine.Permits.Newest!.HoldsAt(bench.Now); minute++)
        {
            bench.Air().Round(TimeSpan.FromMinutes(1));
        }

        Assert.Equal((permit.Id, PermitFate.Revoked), (bench.Machine.Permits.Newest!.Id, bench.Machine.Permits.Newest.Fate));
        Assert.Equal("the effect now exceeds the budget", bench.Machine.Permits.Newest.RevokedBecause);
    }

    [Fact]
    public void A_machine_that_was_taken_out_loses_its_permit_and_ends_as_not_known()
    {
        var bench = new RunningBench(Before).Air().Load(20);
        var permit = bench.Ask("r1").Permit!;

        var told = bench.Edit(WithoutMachines());

        var revoked = Assert.Single(told.OfType<PermitChanged>()).Permit;
        Assert.Equal((permit.Id, PermitFate.Revoked), (revoked.Id, revoked.Fate));
        Assert.Equal("the machine was taken out of the plant file", revoked.RevokedBecause);
        var last = Assert.Single(told.OfType<OutlookIssued>());
        Assert.Equal((Level.NotKnown, "M1", true), (last.Outlook.Level, last.Outlook.Machine, last.Changed));
        Assert.DoesNotContain(told, IsRaised);
        Assert.Empty(bench.Running.Snapshot.Machines);
        Assert.Equal("M1", Assert.Single(bench.Running.TakeRemembered()).Machine);
    }

    [Fact]
    public void A_hold_of_a_machine_that_was_taken_out_is_over()
    {
        var bench = new RunningBench(Before).Air().Load(12);
        Assert.Equal(Level.Hold, bench.Machine.Outlook.Level);

        var cleared = Assert.Single(bench.Edit(WithoutMachines()).OfType<AlertRaised>()).Alert;

        Assert.Equal(("M1/S1/40/hold", true), (cleared.Id, cleared.Cleared));
    }

    [Fact]
    public void A_machine_that_comes_back_begins_anew_but_gives_no_number_twice()
    {
        var bench = new RunningBench(Before).Air().Load(20);
        var first = bench.Ask("r1").Permit!;
        bench.Edit(WithoutMachines());
        var seq = bench.Decisions.OfType<OutlookIssued>().Last().Outlook.Seq;

        bench.Edit(SmallCell.Of(), "C");
        bench.Air();

        Assert.Null(bench.Machine.Job);
        Assert.True(bench.Machine.Outlook.Seq > seq);
        Assert.Equal(PermitFate.Revoked, bench.Machine.Permits.Newest!.Fate);
        bench.Load(20);
        Assert.NotEqual(first.Id, bench.Ask("r2").Permit!.Id);
    }

    [Fact]
    public void A_machine_that_was_taken_out_while_no_worker_ran_ends_as_not_known_once()
    {
        var bench = new RunningBench(Before).Air().Load(20);
        bench.Ask("r1");
        var remembered = bench.Running.TakeRemembered();
        var next = new RunningCell(new PlantVersion(WithoutMachines(), "B"), bench.Now);
        next.Restore(remembered);

        var told = next.DepartUntold(bench.Now);

        Assert.Equal(PermitFate.Revoked, Assert.Single(told.OfType<PermitChanged>()).Permit.Fate);
        Assert.Equal(Level.NotKnown, Assert.Single(told.OfType<OutlookIssued>()).Outlook.Level);
        var again = new RunningCell(new PlantVersion(WithoutMachines(), "B"), bench.Now);
        again.Restore(next.TakeRemembered());
        Assert.Empty(again.DepartUntold(bench.Now));
    }

    [Fact]
    public void Other_modes_of_drift_mean_other_numbers_so_the_machine_is_watched_anew()
    {
        var z = new DriftMode(Axis.Z, 4, TimeSpan.FromHours(2));
        var bench = new RunningBench(SmallCell.Of(Some.Machine() with { Drift = [z] })).Air().Load(20);
        var part = bench.Machine.Outlook.PartCelsius!.Value;

        bench.Edit(SmallCell.Of(Some.Machine() with { Drift = [z with { Axis = Axis.X }] }));
        bench.Round(TimeSpan.FromSeconds(1)).Air();

        Assert.Equal("S1", bench.Machine.Job!.Serial);
        Assert.Equal(part, bench.Machine.Outlook.PartCelsius!.Value, 0.05);
    }

    [Fact]
    public void What_a_sensor_said_last_stays_so_that_nothing_becomes_unknown_by_an_edit()
    {
        var bench = new RunningBench(Before).Air().Load(20);

        bench.Edit(new Cell(Before.Description with { Sensors = [.. Before.Sensors.Reverse()] }));
        bench.Round(TimeSpan.FromSeconds(1));

        Assert.Equal(20, bench.Machine.AirCelsius!.Value, 1e-9);
        Assert.Equal(Level.Ready, bench.Machine.Outlook.Level);
        Assert.DoesNotContain(bench.Decisions, IsRaised);
    }

    [Fact]
    public void A_sensor_that_was_moved_elsewhere_says_nothing_until_it_reports_from_there()
    {
        var bench = new RunningBench(Before).Air();
        var moved = Before.Sensors[0] with { Place = SensorPlace.Hall, Zone = null };

        bench.Edit(new Cell(Before.Description with { Sensors = [moved, .. Before.Sensors.Skip(1)] }));

        Assert.Null(bench.Running.Snapshot.Sensors[0].LastTime);
        Assert.NotNull(bench.Running.Snapshot.Sensors[1].LastTime);
    }

    [Fact]
    public void A_refused_file_is_told_once_and_cleared_by_a_good_one_and_the_old_one_stays()
    {
        var bench = new RunningBench(Before).Air().Load(20);
        var outlook = bench.Machine.Outlook;
        var bad = new PlantRefused("bad", ["plant.yaml:12:5: budgetUm is 0; allowed: more than 0"], 2);

        var told = Assert.Single(bench.Edit(bad).OfType<AlertRaised>()).Alert;

        Assert.Equal(
            "The changed plant file is refused: plant.yaml:12:5: budgetUm is 0; allowed: more than 0 (and 2 more). Version A stays in force.", told.Text);
        Assert.Null(bench.Running.After(bad, bench.Now));
        Assert.Equal(("A", bad), (bench.Running.Snapshot.ConfigVersion, bench.Running.Snapshot.RefusedPlant));
        Assert.Equal(outlook, bench.Round().Machine.Outlook);
        var cleared = Assert.Single(bench.Edit(SmallCell.Of()).OfType<AlertRaised>()).Alert;
        Assert.Equal((told.Id, true), (cleared.Id, cleared.Cleared));
        Assert.Null(bench.Running.Snapshot.RefusedPlant);
    }

    [Fact]
    public void A_change_that_was_worked_out_against_another_version_is_not_taken()
    {
        var bench = new RunningBench(Before);
        bench.Edit(SmallCell.Of());

        Assert.Null(bench.Running.After(new PlantChange(new PlantVersion(SmallCell.Of(), "C"), "A", []), bench.Now));
        Assert.Throws<ArgumentException>(() => bench.Edit(new Cell(Before.Description with { Id = "other" }), "D"));
    }

    private static readonly Gen<string[]> Sensors =
        Gen.Int[0, 30].HashSet[1, 20].SelectMany(numbers => Gen.Shuffle(numbers.Select(number => $"s/{number}").ToArray()));

    private static bool IsRaised(Decision decision) => decision is AlertRaised { Alert.Cleared: false };

    private static Cell WithSensors(string[] ids) => new(Before.Description with { Sensors = [.. ids.Select(Extra)], Machines = [] });

    private static Cell WithFeature(Feature feature) => SmallCell.Of(null, PartClass.Critical, feature);

    private static Cell WithoutMachines() => new(Before.Description with { Machines = [] });

    private static Sensor Extra(string id) => new() { Id = id, Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air, Zone = "main" };

    private static void Queue(RunningBench bench, Cell cell, int[] picks)
    {
        foreach (var pick in picks)
        {
            var sensor = pick % cell.Sensors.Count;
            bench.Send(cell, sensor, double.Parse(cell.Sensors[sensor].Id[2..], System.Globalization.CultureInfo.InvariantCulture) + 10);
        }
    }

    private static IEnumerable<string> Names(Cell cell, int[] picks) => picks.Select(pick => cell.Sensors[pick % cell.Sensors.Count].Id);

    private static string NameOf(double value) => FormattableString.Invariant($"s/{value - 10:0}");
}
