using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How a running cell goes on under another version of its plant file.</summary>
public sealed partial class RunningCell
{
    private const string AlertId = "config/plant-file";
    private const string Cause = "plant file refused";

    private RunningCell(RunningCell before, PlantVersion next, DateTimeOffset moment)
        : this(next, moment, before.pace.Least)
    {
        trust = before.trust.For(cell);
        now = before.now.For(cell, trust);
        rate = before.rate;
        (readings, quarantined, unreadable, events, refused) = (before.readings, before.quarantined, before.unreadable, before.events, before.refused);
        foreach (var (door, since) in before.openDoors.Where(open => before.cell.IndexOfSensor(open.Key) < 0 || cell.IndexOfSensor(open.Key) >= 0))
        {
            openDoors.Add(door, since);
        }

        foreach (var (machine, state) in before.departed)
        {
            departed.Add(machine, state);
        }

        for (var i = 0; i < states.Length; i++)
        {
            var known = Array.FindIndex(before.states, state => state.Machine == states[i].Machine);
            states[i] = known >= 0 ? watches[i].CarriedOver(before.watches[known], before.states[known]) : ComeBack(states[i]);
            states[i] = states[i] with { DoorOpenSince = DoorOpenSince };
            worthKeeping[i] = true;
        }

        Remember(before.threshold.Under(cell.Description.Policies));
    }

    /// <summary>The version of the plant file in force.</summary>
    internal PlantVersion Plant => plant;

    private DateTimeOffset? DoorOpenSince => openDoors.Count > 0 ? openDoors.Values.Min() : null;

    /// <summary>The cell as it goes on after an edit of its plant file, with what is to be told; this one is not changed.</summary>
    /// <param name="edit">The edit.</param>
    /// <param name="moment">The moment.</param>
    /// <returns>Null when the edit changes nothing, or was worked out against a version that is not in force.</returns>
    /// <exception cref="ArgumentException">The next version is of another cell.</exception>
    internal (RunningCell Next, IReadOnlyList<Decision> Decisions)? After(PlantEdit edit, DateTimeOffset moment) => edit switch
    {
        PlantChange change when change.Before == plant.Version => Changed(change, moment),
        PlantRefused bad when bad != refusedPlant => (With(bad, moment), [Refused(bad, moment)]),
        PlantUnchanged when refusedPlant is not null => (With(null, moment), Accepted(moment)),
        _ => null,
    };

    private (RunningCell Next, IReadOnlyList<Decision> Decisions) Changed(PlantChange change, DateTimeOffset moment)
    {
        if (change.Next.Cell.Id != cell.Id)
        {
            throw new ArgumentException($"The plant file in force is of cell {cell.Id}, the next of {change.Next.Cell.Id}: that needs a restart.", nameof(change));
        }

        var next = new RunningCell(this, change.Next, moment);
        List<Decision> decisions = [new PlantChanged(moment, change), .. Accepted(moment)];
        next.air = air.For(next.cell, moment, decisions);
        foreach (var gone in states.Where(state => next.cell.FindMachine(state.Machine) is null))
        {
            decisions.AddRange(next.Depart(gone, moment));
        }

        return (next.Shown(moment), decisions);
    }

    /// <summary>Machines that an earlier worker watched and the plant file no longer has, and that nobody was told of yet.</summary>
    internal IReadOnlyList<Decision> DepartUntold(DateTimeOffset moment) =>
        [.. departed.Values.Where(state => state.Outlook is not null).ToArray().SelectMany(state => Depart(state, moment))];

    private IReadOnlyList<Decision> Depart(MachineState gone, DateTimeOffset moment)
    {
        var (bare, last) = Departure.Of(gone, moment);
        departed[gone.Machine] = bare;
        justDeparted.Add(bare);
        return last;
    }

    private RunningCell With(PlantRefused? bad, DateTimeOffset moment)
    {
        var next = (RunningCell)MemberwiseClone();
        next.refusedPlant = bad;
        return next.Shown(moment);
    }

    private MachineState ComeBack(MachineState begun) => departed.Remove(begun.Machine, out var known)
        ? begun with { Seq = known.Seq, Permits = known.Permits }
        : begun;

    private RunningCell Shown(DateTimeOffset moment)
    {
        Volatile.Write(ref snapshot, SnapshotAt(moment));
        return this;
    }

    /// <summary>A reading that was decoded under an earlier version goes to its own sensor; where that is gone, it is kept as what it was.</summary>
    private void JudgeEarlier(LoopBatch batch, in Arrival arrival)
    {
        var index = earlier.IndexOf(arrival.Cell!, arrival.Reading.Sensor);
        if (index >= 0)
        {
            batch.Add(trust.Judge(arrival with { Reading = arrival.Reading with { Sensor = index }, Cell = cell }));
            return;
        }

        var sensor = arrival.Cell!.Sensors[arrival.Reading.Sensor];
        batch.Keep(arrival.ArrivedAt, new UnreadableMessage(
            sensor.Topic ?? sensor.Id,
            $"sensor {sensor.Id} was taken out of the plant file, or measures something else now, while this reading waited",
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{arrival.Reading.Value} at {arrival.Reading.Time:O}")));
    }

    private AlertRaised Refused(PlantRefused bad, DateTimeOffset moment) => new(moment, new Alert(
        AlertId,
        null,
        Cause,
        $"The changed plant file is refused: {bad.First}. Version {plant.Version} stays in force.",
        "Correct the file and save it; climateguard check lists every mistake.",
        Cleared: false));

    private IReadOnlyList<Decision> Accepted(DateTimeOffset moment) => refusedPlant is null
        ? []
        : [new AlertRaised(moment, new Alert(AlertId, null, Cause, "The plant file is good again.", "Nothing to do.", Cleared: true))];
}
