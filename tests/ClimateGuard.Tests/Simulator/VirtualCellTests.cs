using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Tests.Simulator;

public class VirtualCellTests
{
    private static readonly Cell Description = DemoCell.Make();

    [Fact]
    public void Energy_in_is_energy_out_and_energy_stored()
    {
        var cell = Cell(Script.Once(
        [
            new TimedAction(TimeSpan.FromHours(2), new MoveDoor("door/roller", true)),
            new TimedAction(TimeSpan.FromHours(3), new MoveDoor("door/roller", false)),
            new TimedAction(TimeSpan.FromHours(5), new SwitchFan("ahu2", false)),
            new TimedAction(TimeSpan.FromHours(6), new SwitchFan("ahu2", true)),
            new TimedAction(TimeSpan.FromHours(7), new LoadFilter("ahu1", 0.6, 2.3)),
        ]));
        Silently(cell, TimeSpan.FromHours(10));
        Assert.True(cell.Room.Energy.InJoules > 1e9);
        Assert.InRange(cell.Room.Energy.OpenShare, 0, 0.001);
    }

    [Fact]
    public void The_same_seed_says_the_same()
    {
        var one = Cell(DemoScripts.CoolantTrip(Description)).Advance(TimeSpan.FromHours(2));
        var two = Cell(DemoScripts.CoolantTrip(Description)).Advance(TimeSpan.FromHours(2));
        Assert.Equal(one.Select(Said), two.Select(Said));
    }

    [Fact]
    public void It_says_the_same_in_small_steps_and_in_large_ones()
    {
        var whole = Cell(DemoScripts.CoolantTrip(Description)).Advance(TimeSpan.FromHours(1));
        var cell = Cell(DemoScripts.CoolantTrip(Description));
        var pieces = Enumerable.Range(0, 60).SelectMany(_ => cell.Advance(TimeSpan.FromMinutes(1)));
        Assert.Equal(whole.Select(Said), pieces.Select(Said));
    }

    [Fact]
    public void Another_seed_says_something_else()
    {
        var one = Cell(Script.Empty, seed: 1).Advance(TimeSpan.FromMinutes(10));
        var two = Cell(Script.Empty, seed: 2).Advance(TimeSpan.FromMinutes(10));
        Assert.NotEqual(one.Select(Said), two.Select(Said));
    }

    [Fact]
    public void Signals_come_in_the_order_of_event_time()
    {
        var signals = Cell(DemoScripts.CoolantTrip(Description)).Advance(TimeSpan.FromHours(4));
        for (var i = 1; i < signals.Count; i++) Assert.True(signals[i - 1].EpochMilliseconds <= signals[i].EpochMilliseconds);
    }

    [Fact]
    public void Every_sensor_speaks_at_its_period_and_within_what_is_plausible()
    {
        var cell = Cell(Script.Empty);
        var counts = new int[Description.Sensors.Count];
        cell.Advance(cell.Now + TimeSpan.FromHours(1), r =>
        {
            counts[r.Sensor]++;
            Assert.True(double.IsFinite(r.Value));
            if (Description.Sensors[r.Sensor].Quantity == SensorQuantity.Temperature) Assert.InRange(r.Value, 5, 45);
        }, _ => { });
        for (var i = 0; i < counts.Length; i++)
            Assert.Equal(Description.Sensors[i].ReportsOnChange ? 1 : 360, counts[i]);
    }

    [Fact]
    public void A_running_morning_stays_within_the_band_of_the_room()
    {
        var cell = Cell(Script.Empty);
        for (var i = 0; i < 18; i++)
        {
            Silently(cell, TimeSpan.FromMinutes(10));
            foreach (var zone in cell.Room.Zones) Assert.InRange(zone.LowCelsius, 19.5, 20.5);
        }
    }

    [Fact]
    public void The_first_step_says_which_machines_run()
    {
        var running = Cell(Script.Empty).Advance(TimeSpan.FromSeconds(10)).Select(s => s.Event).OfType<MachineRunning>().ToArray();
        Assert.Equal(["M2", "M3", "M5"], running.Select(r => r.Machine));
        Assert.All(running, r => Assert.True(r.Running && r.PowerKilowatts > 1));
    }

    [Fact]
    public void The_end_of_the_last_shift_is_said_once()
    {
        var events = new List<MachineRunning>();
        var cell = Cell(Script.Empty);
        cell.Advance(cell.Now + TimeSpan.FromHours(14), _ => { }, e => events.AddRange(new[] { e }.OfType<MachineRunning>()));
        var stopped = Assert.Single(events, e => !e.Running && e.Machine == "M3");
        Assert.Equal(new DateTimeOffset(2026, 7, 9, 20, 0, 0, TimeSpan.Zero), stopped.Time);
    }

    [Fact]
    public void A_loop_that_asks_too_much_hunts()
    {
        var cell = Cell(Script.Once([new TimedAction(TimeSpan.FromMinutes(5), new RetuneLoop("ahu2", 12, TimeSpan.FromSeconds(400)))]));
        Silently(cell, TimeSpan.FromHours(2));
        double low = 99, high = 0;
        for (var i = 0; i < 120; i++)
        {
            Silently(cell, TimeSpan.FromMinutes(1));
            var air = cell.Room.FindZone("south")!.LowCelsius;
            (low, high) = (Math.Min(low, air), Math.Max(high, air));
        }

        Assert.InRange(high - low, 0.4, 4);
    }

    [Fact]
    public void A_stopped_fan_lets_the_zone_run_away()
    {
        var cell = Cell(Script.Once([new TimedAction(TimeSpan.FromMinutes(1), new SwitchFan("ahu2", false))]));
        Silently(cell, TimeSpan.FromMinutes(30));
        Assert.InRange(cell.Room.FindZone("south")!.LowCelsius, 22, 30);
    }

    [Fact]
    public void A_stuck_valve_leaves_the_command_and_takes_the_supply()
    {
        var cell = Cell(Script.Once([new TimedAction(TimeSpan.FromMinutes(1), new StickValve("ahu1", 0.1))]));
        Silently(cell, TimeSpan.FromHours(2));
        var unit = cell.Room.FindAirHandler("ahu1")!;
        Assert.True(cell.Room.FindZone("north")!.LowCelsius > 20.4);
        Assert.True(unit.CoolingCommand > 0.5);
        Assert.True(unit.SupplyCelsius > unit.ReturnCelsius - 1.5);
    }

    [Fact]
    public void What_was_said_during_an_outage_comes_afterwards()
    {
        var cell = Cell(Script.Once([new TimedAction(TimeSpan.FromMinutes(10), new BrokerOutage(TimeSpan.FromMinutes(22)))]));
        Assert.NotEmpty(cell.Advance(TimeSpan.FromMinutes(10)));
        Assert.Empty(cell.Advance(TimeSpan.FromMinutes(21)));
        Assert.False(cell.BrokerReachable);
        var late = cell.Advance(TimeSpan.FromMinutes(2));
        Assert.True(late.Count > 22 * 6 * 20);
    }

    [Fact]
    public void The_truth_is_not_the_plant_file()
    {
        var m2 = Cell(Script.Empty).FindMachine("M2")!;
        var slow = m2.Structure[1].MicrometresPerKelvin;
        Assert.NotInRange(slow, 7 * 0.91, 7 * 1.09);
        Assert.InRange(slow, 7 * 0.79, 7 * 1.21);
    }

    [Fact]
    public void Without_chance_the_truth_is_the_plant_file()
    {
        var cell = new VirtualCell(Description, Options(Script.Empty, 7) with { ChanceScale = 0 });
        Assert.Equal(7, cell.FindMachine("M2")!.Structure[1].MicrometresPerKelvin, 1e-12);
    }

    [Fact]
    public void Faults_of_a_sensor_show_in_what_it_says()
    {
        var cell = Cell(Script.Once(
        [
            new TimedAction(TimeSpan.Zero, new ShineOn("air/s4", 2.3)),
            new TimedAction(TimeSpan.Zero, new SilenceSensor("air/n1", true)),
            new TimedAction(TimeSpan.FromMinutes(1), new FreezeSensor("air/n2", true)),
            new TimedAction(TimeSpan.Zero, new SwapSensors("air/n3", "store/pallet")),
        ]));
        var last = cell.Advance(TimeSpan.FromMinutes(30)).Where(s => s.Event is null).GroupBy(s => s.Reading.Sensor).ToDictionary(g => Description.Sensors[g.Key].Id, g => g.ToList());
        Assert.InRange(last["air/s4"][^1].Reading.Value, 21.9, 23.6);
        Assert.False(last.ContainsKey("air/n1"));
        Assert.Single(last["air/n2"].Skip(7).Select(s => s.Reading.Value).Distinct());
        Assert.InRange(last["air/n3"][^1].Reading.Value, 11, 13.5);
        Assert.InRange(last["store/pallet"][^1].Reading.Value, 19, 21);
    }

    private static VirtualCell Cell(Script script, int seed = 7) => new(Description, Options(script, seed));

    private static VirtualCellOptions Options(Script script, int seed) => new(seed, DemoScripts.ThursdayMorning(Description), script);

    private static void Silently(VirtualCell cell, TimeSpan duration) => cell.Advance(cell.Now + duration, _ => { }, _ => { });

    private static (long, int, double, string?) Said(CellSignal signal) =>
        (signal.EpochMilliseconds, signal.Reading.Sensor, signal.Reading.Value, signal.Event?.GetType().Name);
}
