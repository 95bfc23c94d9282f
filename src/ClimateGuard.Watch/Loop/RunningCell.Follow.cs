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

    /// <summary>Each sensor at a moment.</summary>
    internal IReadOnlyList<SensorSnapshot> SensorsAt(DateTimeOffset moment) => now.SensorsAt(moment);

    private void Follow(int index, DateTimeOffset moment, MachineEvent? happened, List<Decision> decisions)
    {
        (states[index], var decided) = watches[index].Step(states[index], MomentOf(index, moment, happened) with { OnlyFollow = true });
        decisions.AddRange(decided);
    }
}
