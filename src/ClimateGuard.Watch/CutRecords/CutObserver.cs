using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Watches the machines step by step and records of each finish cut its temperatures, and what had been predicted when it began.</summary>
/// <remarks>
/// A cut that nobody said began (no <c>cutStarted</c>) is taken from the permit request, for its planned time. The prediction is taken from the outlook
/// as it stood before the cut; nothing that comes later touches it. Owned by one caller, not safe across threads.
/// </remarks>
public sealed class CutObserver
{
    private readonly Dictionary<string, CutWatch> watches;
    private readonly List<RecordedCut> cuts = [];
    private readonly List<ModelCheck> checks = [];

    /// <summary>Begins with nothing seen.</summary>
    /// <param name="cell">The cell.</param>
    public CutObserver(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        watches = cell.Machines.ToDictionary(machine => machine.Id, machine => new CutWatch(cell, machine) { Cut = cuts.Add, Check = checks.Add }, StringComparer.Ordinal);
    }

    /// <summary>Measurements beside what the model had predicted of them.</summary>
    public IReadOnlyList<ModelCheck> Checks => checks;

    /// <summary>Takes one step of the machines.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="happened">What happened, or null.</param>
    /// <param name="machines">The machines after the step.</param>
    /// <param name="gradientOf">How much warmer the air of a zone is under the roof, in K; asked where a sample is taken.</param>
    public void Take(DateTimeOffset moment, CellEvent? happened, IReadOnlyList<MachineState> machines, Func<string, double> gradientOf)
    {
        ArgumentNullException.ThrowIfNull(machines);
        ArgumentNullException.ThrowIfNull(gradientOf);
        foreach (var state in machines)
        {
            if (watches.TryGetValue(state.Machine, out var watch))
            {
                watch.Take(moment, happened is MachineEvent at && at.Machine == state.Machine ? at : null, state, gradientOf);
            }
        }
    }

    /// <summary>The cuts seen so far; one that still runs counts up to now.</summary>
    /// <param name="now">The last moment.</param>
    public IReadOnlyList<RecordedCut> Cuts(DateTimeOffset now)
    {
        foreach (var watch in watches.Values)
        {
            watch.Close(now);
        }

        return cuts;
    }
}
