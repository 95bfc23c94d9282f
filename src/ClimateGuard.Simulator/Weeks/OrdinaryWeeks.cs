using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>Three ordinary weeks before the scripted one: 180 finish operations on the sample cell, fourteen of them begun in a bad state.</summary>
/// <remarks>
/// Invented. The script makes the situations only: ten cold or warm blanks and two trips of a coolant chiller, each touched with a thermometer before
/// anything else is done, and two rings whose job message says the wash though they had stood in the cell over night. What is said of them is
/// up to whoever listens. The late shift of M1 makes pump housings: then the north zone is held half a kelvin cooler.
/// </remarks>
internal sealed class OrdinaryWeeks
{
    /// <summary>How long they take; they end where the scripted week begins.</summary>
    public static readonly TimeSpan Length = TimeSpan.FromDays(21);

    private const string Finish = "40";
    private const int Weeks = 3;
    private const double SetBack = 22.6;
    private static readonly (int Day, double Hour, string Machine, string Part, string? Feature, Trouble Trouble)[] Troubles =
    [
        (1, 12.0, "M2", "PC-620", "bores", Trouble.Store), (2, 12.0, "M2", "PC-620", "bores", Trouble.Store),
        (3, 10.5, "M3", "FD-1100", "bolt-circle", Trouble.Coolant), (4, 16.5, "M4", "VR-780", "holes", Trouble.Wash),
        (2, 16.5, "M4", "VR-780", "holes", Trouble.SaidToBeWarm),
        (8, 12.0, "M2", "PC-620", "bores", Trouble.Store), (9, 16.5, "M4", "VR-780", "holes", Trouble.Wash),
        (9, 12.0, "M2", "PC-620", "bores", Trouble.Store), (10, 10.5, "M3", "FD-1100", "bolt-circle", Trouble.Coolant),
        (11, 16.5, "M4", "VR-780", "holes", Trouble.SaidToBeWarm),
        (15, 12.0, "M2", "PC-620", "bores", Trouble.Store), (16, 16.5, "M4", "VR-780", "holes", Trouble.Wash),
        (17, 12.0, "M2", "PC-620", "bores", Trouble.Store), (18, 16.5, "M4", "VR-780", "holes", Trouble.Wash),
    ];

    // What a day makes when nothing is wrong: eleven operations, each on a blank that has soaked.
    private static readonly (double Hour, string Machine, string Part, string? Feature)[] Day =
    [
        (6.8, "M1", "VP-210", "holes"), (9.0, "M1", "VP-210", "holes"), (11.2, "M1", "PH-340", null), (16.0, "M1", "PH-340", null), (19.5, "M1", "PH-340", null),
        (7.2, "M2", "PH-340", null), (15.5, "M2", "PC-620", "bores"), (18.2, "M2", "PC-620", "bores"),
        (7.6, "M3", "FD-1100", "bolt-circle"), (17.4, "M3", "FD-1100", "bolt-circle"),
        (12.4, "M4", "VR-780", "holes"),
    ];

    private readonly Cell cell;
    private readonly Chance chance;
    private readonly List<TimedAction> story = [];
    private int serial = 1000;

    private OrdinaryWeeks(Cell cell, int seed) => (this.cell, chance) = (cell, new Chance(seed, "ordinary weeks"));

    private enum Trouble
    {
        None,
        Store,
        Wash,
        Coolant,
        SaidToBeWarm,
    }

    /// <summary>What happens, by time since their first Monday 00:00.</summary>
    public static IReadOnlyList<TimedAction> Of(Cell cell, int seed)
    {
        var weeks = new OrdinaryWeeks(cell, seed);
        for (var week = 0; week < Weeks; week++)
        {
            weeks.Climate(TimeSpan.FromDays(7 * week));
            for (var day = 0; day < 5; day++)
            {
                foreach (var job in Day) weeks.Job(At((7 * week) + day, job.Hour), job.Machine, job.Part, job.Feature, Trouble.None);
            }
        }

        weeks.Job(At(19, 8.0), "M1", "VP-210", "holes", Trouble.None);
        foreach (var one in Troubles) weeks.Job(At(one.Day, one.Hour), one.Machine, one.Part, one.Feature, one.Trouble);
        return weeks.story;
    }

    private void Climate(TimeSpan week)
    {
        foreach (var zone in cell.Zones)
        {
            story.Add(new TimedAction(week + TimeSpan.FromHours(4), new MoveSetpoint(zone.Id, zone.Setpoint.Value)));
            story.Add(new TimedAction(week + At(5, 14.5), new MoveSetpoint(zone.Id, SetBack)));
        }

        if (cell.Zones.Count == 0) return;
        for (var day = 0; day < 5; day++)
        {
            story.Add(new TimedAction(week + At(day, 14.5), new MoveSetpoint(cell.Zones[0].Id, cell.Zones[0].Setpoint.Value - 0.5)));
            story.Add(new TimedAction(week + At(day, 22), new MoveSetpoint(cell.Zones[0].Id, cell.Zones[0].Setpoint.Value)));
        }
    }

    private void Job(TimeSpan from, string machine, string number, string? feature, Trouble trouble)
    {
        if (cell.FindMachine(machine) is null || cell.FindPart(number) is not { } part) return;
        void Do(double minute, CellAction action) => story.Add(new TimedAction(from + TimeSpan.FromMinutes(minute), action));
        var ask = new AskPermit(machine, Finish) { Feature = feature };
        Do(0, Blank(machine, part, trouble));
        Do(0.5, new RunMachine(machine, true));
        Do(1, new ProbeDatum(machine));
        if (trouble == Trouble.None)
        {
            Do(3, new SwitchCoolant(machine, true));
            Cut(Do, 14, machine, part, feature, ask);
        }
        else if (trouble == Trouble.Coolant)
        {
            Do(2, new SwitchCoolant(machine, true));
            Do(20, new TripChiller(machine, true));
            Do(80, ask);
            Do(82, new MeasureContact(machine));
            Do(85, new TripChiller(machine, false));
            Cut(Do, 190, machine, part, feature, ask);
        }
        else
        {
            Do(5, ask);
            Do(7, new MeasureContact(machine));
            Do(9, new SwitchCoolant(machine, true));
            Cut(Do, 55, machine, part, feature, ask);
        }
    }

    private LoadJob Blank(string machine, Part part, Trouble trouble)
    {
        var job = new LoadJob(machine, FormattableString.Invariant($"{part.Number}-{serial++}"), part.Number, Finish) { SaidUncertaintyKelvin = 0.3 };
        var spread = 0.15 * Math.Clamp(chance.Normal(), -2, 2);
        return trouble switch
        {
            Trouble.Store => job with { TrueCelsius = 12.5 + spread, Origin = "storage" },
            Trouble.Wash => job with { TrueCelsius = 29 + spread, Origin = "wash" },
            Trouble.SaidToBeWarm => job with { TrueCelsius = 20 + spread, SaidErrorKelvin = 9, Origin = "wash" },
            _ => job with { TrueCelsius = 20 + spread },
        };
    }

    // Touched with a thermometer and probed again, asked for, cut, taken off.
    private static void Cut(Action<double, CellAction> tell, double minute, string machine, Part part, string? feature, AskPermit ask)
    {
        var minutes = part.Features.Where(f => feature is null || f.Id == feature).Sum(f => f.FinishDuration.TotalMinutes);
        tell(minute, new MeasureContact(machine));
        tell(minute + 1, new ProbeDatum(machine));
        tell(minute + 2, ask);
        tell(minute + 3, new MoveCut(machine, true, Finish) { Feature = feature });
        tell(minute + 3 + minutes, new MoveCut(machine, false, Finish) { Feature = feature });
        tell(minute + 5 + minutes, new LoadJob(machine, "", "", ""));
        tell(minute + 5 + minutes, new RunMachine(machine, null));
    }

    private static TimeSpan At(int day, double hour) => TimeSpan.FromDays(day) + TimeSpan.FromHours(hour);
}
