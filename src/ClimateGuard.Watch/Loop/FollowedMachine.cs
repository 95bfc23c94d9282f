using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>One machine that is followed by itself through stretches of moments, with the record of its cuts.</summary>
/// <remarks>It does what <see cref="EventTimeLoop.Follow"/> and <see cref="CutObserver"/> do for their machine. Owned by one caller at a time.</remarks>
internal sealed class FollowedMachine
{
    private readonly int index;
    private readonly MachineWatch watch;
    private readonly CutWatch cuts;
    private readonly Func<string, double> gradientNow;
    private MachineState state;
    private ThermalState? room;
    private double gradient;
    private int step;

    /// <summary>Begins with nothing known.</summary>
    /// <param name="plant">The plant file in force.</param>
    /// <param name="index">Index of the machine.</param>
    /// <param name="begin">Its state before the first moment.</param>
    public FollowedMachine(PlantVersion plant, int index, MachineState begin)
    {
        this.index = index;
        var machine = plant.Cell.Machines[index];
        watch = new MachineWatch(plant.Cell, machine, plant.Version);
        cuts = new CutWatch(plant.Cell, machine) { Cut = cut => Cuts.Add((step, cut)), Check = check => Checks.Add((step, check)) };
        gradientNow = _ => gradient;
        state = begin;
    }

    /// <summary>The cuts that are over, each with the number of its moment.</summary>
    public List<(int Step, RecordedCut Cut)> Cuts { get; } = [];

    /// <summary>Measurements beside what was predicted of them, each with the number of its moment.</summary>
    public List<(int Step, ModelCheck Check)> Checks { get; } = [];

    /// <summary>What was decided, each with the number of its moment.</summary>
    public List<(int Step, Decision Decision)> Decisions { get; } = [];

    /// <summary>Follows the machine through a stretch.</summary>
    public void Follow(FollowedStretch stretch)
    {
        for (var place = 0; place < stretch.Count; place++)
        {
            step = stretch.Before + place;
            gradient = stretch.GradientOf(place, index);
            Follow(stretch[place], stretch.ClimateOf(place, index));
        }
    }

    /// <summary>Ends a cut that still runs.</summary>
    public void Close(DateTimeOffset now)
    {
        step = int.MaxValue;
        cuts.Close(now);
    }

    private void Follow(in FollowedMoment moment, in LocalClimate climate)
    {
        if (state.DoorOpenSince != moment.DoorOpenSince)
        {
            state = state with { DoorOpenSince = moment.DoorOpenSince };
        }

        var isHere = moment.Machine == index;
        if (moment.LooksBack)
        {
            if (isHere)
            {
                state = watch.LookBack(watch.Step(state, new MachineMoment(moment.Time, climate) { OnlyFollow = true }).State);
            }

            cuts.Take(moment.Time, null, state, gradientNow);
            return;
        }

        if (isHere)
        {
            Step(new MachineMoment(moment.Time, climate with { OriginCoolantCelsius = moment.OriginCoolantCelsius }, moment.Happened) { OnlyFollow = true }, null);
            Step(new MachineMoment(moment.Time, climate) { OnlyFollow = true }, null);
            cuts.Take(moment.Time, moment.Happened, state, gradientNow);
            return;
        }

        var before = state.Thermal;
        Step(new MachineMoment(moment.Time, climate) { OnlyFollow = true }, room);
        cuts.Take(moment.Time, null, state, gradientNow);

        // Nobody holds the temperatures before a step at which nothing happened: the next step is written over them.
        room = ReferenceEquals(state.Thermal, before) ? room : before;
    }

    private void Step(in MachineMoment moment, ThermalState? into)
    {
        (state, var decided) = watch.StepInto(into, state, moment);
        foreach (var decision in decided)
        {
            Decisions.Add((step, decision));
        }
    }
}
