using ClimateGuard.Plant;

namespace ClimateGuard.Simulator;

/// <summary>The stories the demo tells. Written for 60 times real time: a virtual minute is a second.</summary>
public static class DemoScripts
{
    private const string FinishOperation = "40";

    /// <summary>The length of one telling of <see cref="CoolantTrip"/>.</summary>
    public static TimeSpan CoolantTripCycle { get; } = Minutes(200);

    /// <summary>How long the history before the scripted week is.</summary>
    public static TimeSpan HistoryLength => OrdinaryWeeks.Length;

    /// <summary>Where the stories begin: a Thursday of an invented week, 09:00 in the time zone of the cell.</summary>
    public static DateTimeOffset ThursdayMorning(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return new LocalClock(cell.Description.TimeZone).FromLocal(new DateTime(2026, 7, 9, 9, 0, 0, DateTimeKind.Unspecified));
    }

    /// <summary>Where the scripted week and the random weeks begin: a Monday of an invented week, 00:00 in the time zone of the cell.</summary>
    public static DateTimeOffset MondayMidnight(Cell cell) => InWeek(cell, TimeSpan.Zero);

    /// <summary>A moment of the scripted week, by local time since its Monday 00:00.</summary>
    public static DateTimeOffset InWeek(Cell cell, TimeSpan sinceMonday)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return new LocalClock(cell.Description.TimeZone).FromLocal(new DateTime(2026, 7, 6, 0, 0, 0, DateTimeKind.Unspecified) + sinceMonday);
    }

    /// <summary>The scripted week with its thirteen incidents, from <see cref="MondayMidnight"/>.</summary>
    public static VirtualCellOptions Week(Cell cell, int seed)
    {
        ArgumentNullException.ThrowIfNull(cell);
        return new VirtualCellOptions(seed, MondayMidnight(cell), Script.Once(DemoWeek.Of(cell))) { PastSetpointCelsius = 22.6, KeepsTruth = true };
    }

    /// <summary>The scripted week with three ordinary weeks before it: it speaks from <see cref="HistoryLength"/> before <see cref="MondayMidnight"/>.</summary>
    public static VirtualCellOptions WeekWithHistory(Cell cell, int seed)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var shifted = DemoWeek.Of(cell).Select(told => told with { At = told.At + HistoryLength });
        return Week(cell, seed) with { Start = MondayMidnight(cell) - HistoryLength, Script = Script.Once([.. OrdinaryWeeks.Of(cell, seed), .. shifted]) };
    }

    /// <summary>A chiller trips under a heavy disc and comes back; a door stands open and nothing comes of it; a blank comes in cold.</summary>
    /// <remarks>
    /// The air stays at 20 °C throughout. Minute 6: the chiller trips; about minute 37 the hole pattern would leave its budget; minute 51: the
    /// chiller is back; minute 110 to 118: the door; minute 130: the cold blank, rinsed from 134 to 152, measured at 154; minute 200: the next
    /// telling, with new serials.
    /// </remarks>
    public static Script CoolantTrip(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var cast = DemoCast.From(cell);
        return Script.Cycles(CoolantTripCycle, number =>
        {
            var story = new List<TimedAction>();
            EveryMachineGetsAPart(story, cast, number);
            if (cast.WarmCoolant is { } warm) CoolantWarms(story, warm);
            if (cast.Door is { } door) DoorStandsOpen(story, door);
            if (cast.ColdBlank is { } cold) BlankComesInCold(story, cold, number);
            return story;
        });
    }

    private static void EveryMachineGetsAPart(List<TimedAction> story, DemoCast cast, int number)
    {
        for (var i = 0; i < cast.All.Count; i++)
        {
            var (machine, part) = (cast.All[i].Machine, cast.All[i].Part);
            story.Add(At(0, new LoadJob(machine.Id, Serial(part, number, i), part.Number, FinishOperation)));
            story.Add(At(0, new RunMachine(machine.Id, true)));
            story.Add(At(0.5, new ProbeDatum(machine.Id)));
            if (machine.CoolantMedium == CoolantMedium.Submerged && machine.CoolantSensor is not null)
                story.Add(At(1, new SwitchCoolant(machine.Id, true)));
            if (machine.Id == cast.WarmCoolant?.Machine.Id) continue;
            story.Add(At(3 + i, new AskPermit(machine.Id, FinishOperation)));
            if (machine.Id == cast.ColdBlank?.Machine.Id) continue;
            story.Add(At(4 + i, new MoveCut(machine.Id, true, FinishOperation)));
            story.Add(At(4 + i + CutMinutes(part), new MoveCut(machine.Id, false, FinishOperation)));
        }
    }

    private static void CoolantWarms(List<TimedAction> story, DemoCast.Role warm)
    {
        var (machine, pattern) = (warm.Machine.Id, DemoCast.Pattern(warm.Part));
        story.Add(At(1, new SwitchCoolant(machine, true)));
        story.Add(At(6, new TripChiller(machine, true)));
        story.Add(At(36, new AskPermit(machine, FinishOperation) { Feature = pattern }));
        story.Add(At(51, new TripChiller(machine, false)));
        story.Add(At(75, new AskPermit(machine, FinishOperation) { Feature = pattern }));
        story.Add(At(105, new AskPermit(machine, FinishOperation) { Feature = pattern }));
        story.Add(At(106, new MoveCut(machine, true, FinishOperation) { Feature = pattern }));
        story.Add(At(131, new MoveCut(machine, false, FinishOperation) { Feature = pattern }));
    }

    private static void DoorStandsOpen(List<TimedAction> story, string door)
    {
        story.Add(At(110, new MoveDoor(door, true)));
        story.Add(At(118, new MoveDoor(door, false)));
    }

    private static void BlankComesInCold(List<TimedAction> story, DemoCast.Role cold, int number)
    {
        var (machine, part) = (cold.Machine.Id, cold.Part);
        story.Add(At(126, new LoadJob(machine, "", "", "")));
        story.Add(At(130, new LoadJob(machine, Serial(part, number, 9), part.Number, FinishOperation)
        {
            TrueCelsius = 12.6,
            SaidUncertaintyKelvin = 0.4,
        }));
        story.Add(At(130.5, new ProbeDatum(machine)));
        story.Add(At(132, new AskPermit(machine, FinishOperation)));
        story.Add(At(134, new SwitchCoolant(machine, true)));
        story.Add(At(152, new SwitchCoolant(machine, false)));
        story.Add(At(152, new BlowDry(machine)));
        story.Add(At(153, new ProbeDatum(machine)));
        story.Add(At(154, new MeasureContact(machine)));
        story.Add(At(158, new AskPermit(machine, FinishOperation)));
        story.Add(At(160, new MoveCut(machine, true, FinishOperation)));
        story.Add(At(185, new MoveCut(machine, false, FinishOperation)));
    }

    // Long cuts end before the next telling puts a new part on.
    private static double CutMinutes(Part part) => Math.Clamp(part.Features.Sum(f => f.FinishDuration.TotalMinutes), 10, 160);

    private static string Serial(Part part, int number, int place) =>
        FormattableString.Invariant($"{part.Number}-{4101 + (10 * number) + place}");

    private static TimedAction At(double minute, CellAction action) => new(Minutes(minute), action);

    private static TimeSpan Minutes(double minutes) => TimeSpan.FromMinutes(minutes);
}
