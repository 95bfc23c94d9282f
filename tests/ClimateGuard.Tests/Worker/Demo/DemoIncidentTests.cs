using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Worker.Demo;

namespace ClimateGuard.Tests.Worker.Demo;

/// <summary>Each button of the demo page changes what it says it changes, in the direction and the time it says; the cell is otherwise quiet.</summary>
public sealed class DemoIncidentTests
{
    private static readonly Cell Sample = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;

    [Fact]
    public void The_sample_cell_has_all_seven_buttons() =>
        Assert.Equal(["coolant-trip", "door", "fan", "hunting", "cold-blank", "swap", "outage"], new Visit().Desk.Incidents.Select(incident => incident.Id));

    [Fact]
    public void Coolant_trip_warms_the_disc_out_of_its_budget_within_the_hour_and_the_chiller_brings_it_back_after_two()
    {
        var visit = new Visit();
        visit.Press("coolant-trip");
        var after = visit.Minutes(240, "m3/coolant", cell => Math.Abs(cell.FindMachine("M3")!.Truth().First(truth => truth.Feature == "bolt-circle").EffectMicrometres));

        Assert.InRange(after.Readings[55] - after.Readings[0], 2, 6);
        Assert.InRange(after.Truth.FindIndex(effect => effect > 18), 10, 60);
        Assert.True(after.Readings[119] > after.Readings[55] && after.Readings[200] < after.Readings[119] - 3);
        Assert.True(after.Truth[239] < 18);
    }

    [Fact]
    public void The_roller_door_opens_at_once_and_closes_after_26_minutes_and_the_south_feels_it()
    {
        var visit = new Visit();
        var before = visit.South;
        visit.Press("door");
        var after = visit.Minutes(60, "air/s1", cell => cell.Room.FindZone("S")!.LowCelsius);

        var moves = visit.Events.OfType<DoorMoved>().ToArray();
        Assert.Equal([true, false], moves.Select(move => move.Open));
        Assert.InRange((moves[1].Time - moves[0].Time).TotalMinutes, 25.9, 26.1);
        Assert.True(after.Truth.Take(10).Max() - before > 0.3, $"{after.Truth.Take(10).Max()} from {before}");
        Assert.InRange(after.Truth[59] - before, -0.5, 0.4);
    }

    [Fact]
    public void The_fan_off_warms_the_south_by_degrees_in_minutes_and_it_is_on_again_after_35()
    {
        var visit = new Visit();
        var before = visit.South;
        visit.Press("fan");
        var after = visit.Minutes(120, "air/s1", cell => cell.Room.FindZone("S")!.LowCelsius);

        Assert.True(after.Truth[20] - before > 2, $"{after.Truth[20]} from {before}");
        Assert.InRange(after.Truth.IndexOf(after.Truth.Max()), 30, 38);
        Assert.True(after.Truth[119] - before < 1.5);
        Assert.True(after.Readings[20] - after.Readings[0] > 1.5);
    }

    [Fact]
    public void Hunting_swings_the_air_and_hardly_moves_a_disc_and_ends_after_four_hours()
    {
        var visit = new Visit();
        visit.World.Do(new LoadJob("M3", "FD-1100-1", "FD-1100", "40"));
        visit.Press("hunting");
        var air = visit.Minutes(420, "air/s1", cell => cell.Room.FindZone("S")!.LowCelsius);
        var disc = visit.Other;

        Assert.True(Swing(air.Truth, 120, 120) > 0.8, $"{Swing(air.Truth, 120, 120)}");
        Assert.True(Swing(disc, 120, 120) < 0.5 * Swing(air.Truth, 120, 120), $"{Swing(disc, 120, 120)}");
        Assert.True(Swing(air.Truth, 360, 60) < 0.5 * Swing(air.Truth, 120, 120), $"{Swing(air.Truth, 360, 60)}");
    }

    [Fact]
    public void A_cold_blank_is_loaded_and_asked_for_at_once_and_truly_out()
    {
        var visit = new Visit();
        visit.Press("cold-blank");
        visit.Minutes(2, "air/n1", _ => 0);

        Assert.Equal("PC-620-VISIT", visit.Events.OfType<JobLoaded>().Last(job => job.Machine == "M2").Serial);
        Assert.Single(visit.Events.OfType<PermitRequested>(), request => request.Machine == "M2");
        Assert.True(visit.World.FindMachine("M2")!.Truth().First(truth => truth.Feature == "bores").EffectMicrometres > 20);
    }

    [Fact]
    public void Swapped_sensors_tell_each_others_place_until_the_button_is_pressed_again()
    {
        var visit = new Visit();
        visit.World.Do(new SetTank("M1", 25));
        visit.Minutes(180, "m1/coolant", _ => 0);
        var before = visit.Minutes(2, "air/n2", _ => 0).Readings[^1];
        visit.Press("swap");
        var swapped = visit.Minutes(30, "air/n2", _ => 0).Readings[^1];
        visit.Press("swap");
        var back = visit.Minutes(30, "air/n2", _ => 0).Readings[^1];

        Assert.InRange(before, 19, 21);
        Assert.True(swapped > before + 1, $"{swapped} after {before}");
        Assert.InRange(back, 19, 21);
    }

    [Fact]
    public void An_outage_brings_nothing_for_22_minutes_and_then_what_was_said_meanwhile()
    {
        var visit = new Visit();
        visit.Minutes(1, "air/n1", _ => 0);
        visit.Press("outage");
        visit.Minutes(1, "air/n1", _ => 0);
        var count = visit.ReadingCount;
        visit.Minutes(20, "air/n1", _ => 0);
        Assert.Equal(count, visit.ReadingCount);

        visit.Minutes(3, "air/n1", _ => 0);
        Assert.True(visit.ReadingCount - count > 20 * 30, $"{visit.ReadingCount - count}");
    }

    private static double Swing(IReadOnlyList<double> values, int from, int count) => values.Skip(from).Take(count).Max() - values.Skip(from).Take(count).Min();

    /// <summary>A quiet cell on a Thursday morning, and a visitor at its desk.</summary>
    private sealed class Visit
    {
        public Visit()
        {
            World = new VirtualCell(Sample, new VirtualCellOptions(7, DemoScripts.ThursdayMorning(Sample), Script.Empty));
            Desk = new DemoDesk(World, 60);
            Minutes(1, "air/n1", _ => 0);
        }

        public VirtualCell World { get; }

        public DemoDesk Desk { get; }

        public List<CellEvent> Events { get; } = [];

        public List<double> Other { get; } = [];

        public long ReadingCount { get; private set; }

        public double South => World.Room.FindZone("S")!.LowCelsius;

        public void Press(string id) => Desk.Wish(Desk.Incidents.Single(incident => incident.Id == id));

        public (List<double> Readings, List<double> Truth) Minutes(int minutes, string sensor, Func<VirtualCell, double> truth)
        {
            var index = Sample.IndexOfSensor(sensor);
            var (readings, truths, last) = (new List<double>(), new List<double>(), double.NaN);
            for (var minute = 0; minute < minutes; minute++)
            {
                Desk.DoWishes();
                World.Advance(
                    World.Now + TimeSpan.FromMinutes(1),
                    reading =>
                    {
                        ReadingCount++;
                        if (reading.Sensor == index) last = reading.Value;
                    },
                    Events.Add);
                readings.Add(last);
                truths.Add(truth(World));
                Other.Add(World.FindMachine("M3")!.Part?.MeanCelsius ?? double.NaN);
            }

            return (readings, truths);
        }
    }
}
