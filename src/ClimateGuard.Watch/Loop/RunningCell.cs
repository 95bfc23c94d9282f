using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>All state of a running cell: what the sensors say, and the watch of each machine. Deterministic; owned by the loop.</summary>
public sealed partial class RunningCell
{
    private static readonly TimeSpan KeepEvery = TimeSpan.FromMinutes(1);

    private readonly PlantVersion plant;
    private readonly Cell cell;
    private readonly EarlierCells earlier;
    private readonly SensorTrust trust;
    private readonly CellState now;
    private readonly MachineWatch[] watches;
    private readonly MachineState[] states;
    private readonly StepPace pace;
    private readonly Dictionary<string, int> indexOfMachine;
    private readonly Dictionary<string, DateTimeOffset> openDoors = new(StringComparer.Ordinal);
    private readonly Dictionary<string, MachineState> departed = new(StringComparer.Ordinal);
    private readonly List<MachineState> justDeparted = [];
    private readonly ArrivalRate rate = new();
    private DateTimeOffset since;
    private PlantRefused? refusedPlant;
    private long readings;
    private long quarantined;
    private long unreadable;
    private long events;
    private long refused;
    private readonly (MachineState State, IReadOnlyList<Decision> Decisions)[] decided;
    private readonly MachineMoment[] moments;
    private readonly bool[] doors;
    private readonly bool[] worthKeeping;
    private readonly DateTimeOffset[] keptAt;
    private CellSnapshot snapshot;

    /// <summary>Begins with nothing known.</summary>
    /// <param name="plant">The version of its plant file in force.</param>
    /// <param name="start">The moment.</param>
    /// <param name="leastBetweenSteps">A machine at which nothing happened is stepped no sooner after its last step; zero: each round.</param>
    /// <param name="airPace">How often the air is judged, or null for what goes with that.</param>
    public RunningCell(PlantVersion plant, DateTimeOffset start, TimeSpan leastBetweenSteps = default, AirPace? airPace = null)
    {
        ArgumentNullException.ThrowIfNull(plant);
        this.plant = plant;
        cell = plant.Cell;
        since = start;
        earlier = new EarlierCells(cell);
        trust = new SensorTrust(cell);
        now = new CellState(cell, trust);
        watches = [.. cell.Machines.Select(machine => new MachineWatch(cell, machine, plant.Version))];
        threshold = HoldThreshold.Of(cell.Description.Policies);
        states = [.. watches.Select(watch => watch.Begin(start) with { Threshold = threshold })];
        indexOfMachine = cell.Machines.Select((machine, index) => (machine.Id, index)).ToDictionary(StringComparer.Ordinal);
        pace = new StepPace(states.Length, leastBetweenSteps);
        air = new AirWatch(cell, airPace ?? AirPace.For(leastBetweenSteps));
        decided = new (MachineState, IReadOnlyList<Decision>)[watches.Length];
        moments = new MachineMoment[watches.Length];
        doors = [.. cell.Sensors.Select(sensor => sensor is { Place: SensorPlace.Door, Quantity: SensorQuantity.Contact })];
        worthKeeping = new bool[states.Length];
        keptAt = [.. states.Select(_ => start)];
        snapshot = SnapshotAt(start);
    }

    /// <summary>The newest snapshot.</summary>
    public CellSnapshot Snapshot => Volatile.Read(ref snapshot);

    /// <summary>Step the machines on all processors, for a replay that has them to itself.</summary>
    internal bool SideBySide { get; init; }

    /// <summary>Zones and air handlers are watched for causes; what is asked of the parts alone does not need it.</summary>
    internal bool WatchesAir { get; init; } = true;

    /// <summary>Goes on with what the machines remembered; machines without a memory, and what no longer fits the plant file, begin anew.</summary>
    internal void Restore(IEnumerable<MachineState> remembered)
    {
        foreach (var state in remembered)
        {
            if (indexOfMachine.TryGetValue(state.Machine, out var index))
            {
                states[index] = watches[index].Fitting(state);
            }
            else
            {
                departed[state.Machine] = state;
            }
        }

        RestoreThreshold();
    }

    /// <summary>What is worth keeping since the last time: machines at which something happened, and each machine once a minute.</summary>
    internal IReadOnlyList<MachineState> TakeRemembered()
    {
        List<MachineState> remembered = [.. justDeparted];
        justDeparted.Clear();
        for (var i = 0; i < states.Length; i++)
        {
            if (worthKeeping[i] || states[i].At - keptAt[i] >= KeepEvery)
            {
                remembered.Add(states[i]);
                keptAt[i] = states[i].At;
                worthKeeping[i] = false;
            }
        }

        return remembered;
    }

    /// <summary>The wall clock was set: what has been waited stays waited.</summary>
    internal void AfterClockStep(TimeSpan by, DateTimeOffset now)
    {
        for (var i = 0; i < states.Length; i++)
        {
            states[i] = states[i].AfterClockStep(by);
            keptAt[i] += by;
        }

        pace.AfterClockStep();
        trust.AfterClockStep();
        this.now.AfterClockStep(now);
    }

    internal IReadOnlyList<Decision> Step(LoopBatch batch, DateTimeOffset moment)
    {
        rate.Count(batch.Arrivals.Length, moment);
        TakeReadings(batch);
        var decisions = new List<Decision>(trust.TakeAlerts());
        foreach (var work in batch.Work)
        {
            events++;
            var before = decisions.Count;
            Take(work.Happened, moment, decisions);
            work.Posted?.Decided([.. decisions.Skip(before)]);
        }

        StepDue(moment, decisions);
        if (WatchesAir)
        {
            air.Pass(moment, states, decisions);
        }

        if (batch.Work.Count > 0 || pace.WantsSnapshotAt(moment))
        {
            Look(moment);
        }

        return decisions;
    }

    /// <summary>Takes a new snapshot, also when no step is due: of what was brought back before the first one.</summary>
    internal void Look(DateTimeOffset moment) => Volatile.Write(ref snapshot, SnapshotAt(moment));

    /// <summary>What each machine remembers now.</summary>
    internal IReadOnlyList<MachineState> Remembered() => [.. states];

    private void Take(CellEvent happened, DateTimeOffset moment, List<Decision> decisions)
    {
        if (happened is DoorMoved door)
        {
            MoveDoor(door);
        }

        if (happened is PolicyReset reset)
        {
            Reset(reset, moment, decisions);
        }

        air.Take(happened, moment, states, decisions);
        if (happened is not MachineEvent atMachine)
        {
            return;
        }

        if (indexOfMachine.TryGetValue(atMachine.Machine, out var index))
        {
            StepOne(index, moment, atMachine, decisions);
            return;
        }

        refused++;
        var hint = NearestNames.Hint(atMachine.Machine, [.. cell.Machines.Select(machine => machine.Id)]);
        decisions.Add(new AlertRaised(moment, new Alert(
            $"unknown-machine/{atMachine.Machine}",
            null,
            "unknown machine",
            $"An event came for machine {atMachine.Machine}, which is not in the plant file ({hint}). It is in the ledger and changed nothing.",
            "Correct the sender or the plant file.",
            Cleared: false)));
    }

    // A watch is a pure step of its own machine, so side by side they decide what they decide one after the other; the sensors are asked before.
    private void StepDue(DateTimeOffset moment, List<Decision> decisions)
    {
        if (!SideBySide)
        {
            foreach (var due in pace.DueAt(moment))
            {
                StepOne(due, moment, null, decisions);
            }

            return;
        }

        for (var i = 0; i < states.Length; i++)
        {
            moments[i] = MomentOf(i, moment, null);
        }

        Parallel.For(0, states.Length, i => decided[i] = watches[i].Step(states[i], moments[i]));
        for (var i = 0; i < states.Length; i++)
        {
            Take(i, decided[i], null, decisions);
        }
    }

    private void StepOne(int index, DateTimeOffset moment, MachineEvent? happened, List<Decision> decisions) =>
        Take(index, watches[index].Step(states[index], MomentOf(index, moment, happened)), happened, decisions);

    private MachineMoment MomentOf(int index, DateTimeOffset moment, MachineEvent? happened) => new(
        moment, now.ClimateOf(states[index].Machine, moment) with { OriginCoolantCelsius = CoolantOfOrigin(happened, moment) }, happened, air.CourseOf(cell.Machines[index].Zone));

    private void Take(
        int index, (MachineState State, IReadOnlyList<Decision> Decisions) step, MachineEvent? happened, List<Decision> decisions)
    {
        states[index] = step.State;
        worthKeeping[index] |= happened is not null || step.Decisions.Any(decision => decision is not OutlookIssued { Changed: false });
        decisions.AddRange(step.Decisions);
        foreach (var scored in step.Decisions)
        {
            if (scored is HoldScored hold)
            {
                Judge(hold, decisions);
            }
        }
    }

    private double? CoolantOfOrigin(MachineEvent? happened, DateTimeOffset moment) =>
        happened is JobLoaded { Origin: { } origin } && cell.FindMachine(origin) is { } machine
            ? Known(now.ClimateOf(machine.Id, moment).CoolantCelsius)
            : null;
}
