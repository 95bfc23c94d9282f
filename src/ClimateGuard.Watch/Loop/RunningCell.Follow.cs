using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How a running cell follows temperatures for who looks back, without an outlook each minute.</summary>
public sealed partial class RunningCell
{
    /// <summary>Follows the temperatures of every machine up to a moment and takes in what happened; outlooks stay as they are.</summary>
    internal IReadOnlyList<Decision> Follow(LoopBatch batch, DateTimeOffset moment)
    {
        TakeReadings(batch);
        List<Decision> decisions = [.. trust.TakeAlerts()];
        foreach (var happened in batch.Work.Select(work => work.Happened))
        {
            events++;
            if (happened is DoorMoved door) MoveDoor(door);
            if (happened is MachineEvent at && indexOfMachine.TryGetValue(at.Machine, out var here)) Follow(here, moment, at, decisions);
        }

        for (var i = 0; i < states.Length; i++) Follow(i, moment, null, decisions);
        return decisions;
    }

    /// <summary>Follows one machine up to a moment and makes its outlook; the others stay as they are.</summary>
    internal void LookBack(LoopBatch batch, DateTimeOffset moment, string machine)
    {
        TakeReadings(batch);
        trust.TakeAlerts();
        if (!indexOfMachine.TryGetValue(machine, out var index)) return;
        Follow(index, moment, null, []);
        states[index] = watches[index].LookBack(states[index]);
    }

    /// <summary>How much warmer the air of a zone is under the roof, in K.</summary>
    internal double VerticalGradient(string zone, DateTimeOffset moment) => now.VerticalGradient(zone, moment);

    /// <summary>Takes a reading in at once; the machines are followed elsewhere, from what <see cref="Note"/> writes down.</summary>
    internal void TakeAtOnce(in Arrival arrival) => Take(trust.Judge(arrival));

    /// <summary>Writes the surroundings of all machines at a moment down, as <see cref="Follow(LoopBatch, DateTimeOffset)"/> would tell them of.</summary>
    internal void Note(FollowedStretch into, DateTimeOffset moment, CellEvent? happened, string? lookBack)
    {
        trust.TakeAlerts();
        if (happened is DoorMoved door) MoveDoor(door);
        var machine = happened as MachineEvent;
        var index = indexOfMachine.GetValueOrDefault(lookBack ?? machine?.Machine ?? "", -1);
        var place = into.Add(new FollowedMoment(
            moment, index, machine, lookBack is not null, CoolantOfOrigin(machine, moment), DoorOpenSince));
        for (var i = 0; i < states.Length; i++)
        {
            var neighbour = FirstOfZone(i);
            into.Say(place, i, now.ClimateOf(states[i].Machine, moment), neighbour < i ? into.GradientOf(place, neighbour) : now.VerticalGradient(cell.Machines[i].Zone, moment));
        }
    }

    private int FirstOfZone(int index)
    {
        var first = 0;
        while (cell.Machines[first].Zone != cell.Machines[index].Zone) first++;
        return first;
    }

    private void Follow(int index, DateTimeOffset moment, MachineEvent? happened, List<Decision> decisions)
    {
        (states[index], var decided) = watches[index].Step(states[index], MomentOf(index, moment, happened) with { OnlyFollow = true });
        decisions.AddRange(decided);
    }
}
