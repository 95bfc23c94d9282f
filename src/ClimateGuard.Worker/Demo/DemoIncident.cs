using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Worker.Demo;

/// <summary>An incident behind a button: its words, what to look at, whether a cell can have it, and what it does.</summary>
internal sealed record DemoIncident(string Id, string Words, string LookAt, Func<Cell, bool> Fits, Func<Cell, IEnumerable<CellAction>> Actions)
{
    private const string Finish = "40";
    private static readonly TimeSpan DoorOpen = TimeSpan.FromMinutes(26);
    private static readonly TimeSpan FanOff = TimeSpan.FromMinutes(35);
    private static readonly TimeSpan Hunting = TimeSpan.FromHours(4);
    private static readonly TimeSpan Tripped = TimeSpan.FromMinutes(120);
    private static readonly TimeSpan Outage = TimeSpan.FromMinutes(22);

    /// <summary>All of them, in the order of the page; told for the sample cell.</summary>
    public static IReadOnlyList<DemoIncident> All { get; } =
    [
        new("coolant-trip", "Coolant trip on M3", "M3 goes to hold when its coolant has warmed the part, within the hour; the chiller comes back after two.",
            cell => Has(cell, "M3", "FD-1100"),
            _ => [.. Disc(), new SwitchCoolant("M3", true), .. ForAWhile(Tripped, new TripChiller("M3", true), new TripChiller("M3", false))]),
        new("door", "Roller door open", "The air of zone S jumps, the parts hardly move; permits are taken back after three minutes. The door closes after 26 minutes.",
            cell => cell.IndexOfSensor("door/roller") >= 0,
            _ => ForAWhile(DoorOpen, new MoveDoor("door/roller", true), new MoveDoor("door/roller", false))),
        new("fan", "Fan of AHU-2 off", "Zone S warms by degrees in minutes; depths on M4 turn their sign later. The fan is on again after 35 minutes.",
            cell => Unit(cell, "ahu2"), _ => ForAWhile(FanOff, new SwitchFan("ahu2", false), new SwitchFan("ahu2", true))),
        new("hunting", "AHU-2 hunting", "The air chart of zone S swings, the parts are too slow to follow: ready. It ends after four hours.",
            cell => Unit(cell, "ahu2"),
            _ => ForAWhile(Hunting, new RetuneLoop("ahu2", 10, TimeSpan.FromSeconds(400)), new RetuneLoop("ahu2", 2, TimeSpan.FromSeconds(1500)))),
        new("cold-blank", "Cold blank on M2", "M2 holds at once: the planet carrier came from the store at 12 °C. Its air is at 20 °C.",
            cell => Has(cell, "M2", "PC-620"), _ => ColdBlank()),
        new("swap", "Swap two sensors", "air/n2 and m1/coolant sit in each other's place; press again to put them back. The sensors page tells.",
            cell => cell.IndexOfSensor("air/n2") >= 0 && cell.IndexOfSensor("m1/coolant") >= 0, _ => [new SwapSensors("air/n2", "m1/coolant")]),
        new("outage", "Broker outage", "Nothing comes for 22 minutes: not known, never ready. Then what was said comes late, without false alarms.",
            _ => true, _ => [new BrokerOutage(Outage)]),
    ];

    private static IEnumerable<CellAction> Disc() =>
    [
        new LoadJob("M3", "FD-1100-VISIT", "FD-1100", Finish) { SaidUncertaintyKelvin = 0.2 }, new RunMachine("M3", true), new ProbeDatum("M3"),
    ];

    private static IEnumerable<CellAction> ColdBlank() =>
    [
        new LoadJob("M2", "PC-620-VISIT", "PC-620", Finish) { TrueCelsius = 12.4, SaidUncertaintyKelvin = 0.4, Origin = "storage" },
        new ProbeDatum("M2"), new AskPermit("M2", Finish) { Feature = "bores" },
    ];

    private static IEnumerable<CellAction> ForAWhile(TimeSpan duration, CellAction begin, CellAction end) => [begin, new Afterwards(duration, end)];

    private static bool Has(Cell cell, string machine, string part) => cell.FindMachine(machine) is not null && cell.FindPart(part) is not null;

    private static bool Unit(Cell cell, string id) => cell.Description.AirHandlers.Any(unit => unit.Id == id);
}
