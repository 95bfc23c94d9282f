using ClimateGuard.Enclosure;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>How it goes on after a restart: findings, answers and verified causes from the ledger, minutes and what is usual from the history.</summary>
public sealed partial class AirWatch
{
    /// <summary>Judges nothing until the history is there, or cannot be read.</summary>
    internal void AwaitPast()
    {
        awaitsPast = units.Length > 0 || zones.Length > 0;
        Snapshot = SnapshotAt(Snapshot.JudgedAt);
    }

    /// <summary>Takes what the ledger says was told, in place of what this watch knew: another worker may have decided meanwhile.</summary>
    /// <param name="findings">Findings, oldest line first.</param>
    /// <param name="excursions">Excursions, oldest line first.</param>
    /// <param name="machines">What the machines remember.</param>
    internal void Restore(IReadOnlyList<FindingCase> findings, IReadOnlyList<ZoneExcursion> excursions, IEnumerable<MachineState> machines)
    {
        book = new FindingBook();
        book.Restore([.. findings.Where(finding => Exists(cell, finding.Place))]);
        foreach (var newest in excursions.GroupBy(e => e.Zone).Select(group => group.Last()))
        {
            Array.Find(zones, zone => zone.Zone.Id == newest.Zone)?.GoOn(newest);
        }

        foreach (var state in machines)
        {
            if (state.Job is { } job) loaded[state.Machine] = job;
        }

        Snapshot = SnapshotAt(Snapshot.JudgedAt);
    }

    /// <summary>Takes the history: the days as what is usual, and the last of them as minutes.</summary>
    /// <param name="past">What was read; another cell's is left out.</param>
    internal void Take(AirPast past)
    {
        if (!awaitsPast || !ReferenceEquals(past.Cell, cell)) return;
        (awaitsPast, next) = (false, null);
        pastFailed = past.Failed;
        foreach (var (sensor, minute, mean) in past.Minutes) window.Fill(sensor, minute, mean);
        SignalFrame[] days = [.. past.Days.Where(day => day.KnownMinutes >= LeastMinutesOfDay)];
        foreach (var unit in units)
        {
            unit.Forget();
            unit.Learn(days, day => HadFault(unit, day));
        }

        if (past.Forecasts is { } learned) forecasts = learned;
        today = past.Today;
        Snapshot = SnapshotAt(Snapshot.JudgedAt);
    }
}
