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
    private readonly Cell cell;
    private readonly SampleMaker maker;
    private readonly Dictionary<string, CutRecorder> recorders;
    private readonly Dictionary<string, MachineState> last = new(StringComparer.Ordinal);
    // An override and missing inputs issue outlooks without numbers; the last one with numbers is what was predicted.
    private readonly Dictionary<string, Outlook> outlooks = new(StringComparer.Ordinal);
    private readonly List<RecordedCut> cuts = [];
    private readonly List<ModelCheck> checks = [];

    /// <summary>Begins with nothing seen.</summary>
    /// <param name="cell">The cell.</param>
    public CutObserver(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        this.cell = cell;
        maker = new SampleMaker(cell);
        recorders = cell.Machines.ToDictionary(machine => machine.Id, _ => new CutRecorder(), StringComparer.Ordinal);
    }

    /// <summary>Measurements beside what the model had predicted of them.</summary>
    public IReadOnlyList<ModelCheck> Checks => checks;

    /// <summary>Takes one step of the machines.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="happened">What happened, or null.</param>
    /// <param name="machines">The machines after the step.</param>
    /// <param name="sensors">Gives the sensors; asked where a sample is taken.</param>
    public void Take(DateTimeOffset moment, CellEvent? happened, IReadOnlyList<MachineState> machines, Func<IReadOnlyList<SensorSnapshot>> sensors)
    {
        ArgumentNullException.ThrowIfNull(machines);
        foreach (var state in machines)
        {
            if (!recorders.TryGetValue(state.Machine, out var recorder))
            {
                continue;
            }

            var here = happened is MachineEvent at && at.Machine == state.Machine ? at : null;
            if (here is not null)
            {
                Happened(recorder, here, state);
            }

            if (state.Job is { IsUnload: false } && (here is CutMoved || recorder.Wants(moment)))
            {
                recorder.Add(maker.Of(state, moment, sensors(), recorder.DriftAtStart));
            }

            if (recorder.Work is not null && (Ended(here, recorder) || recorder.EndsAt <= moment))
            {
                cuts.Add(recorder.End(moment));
            }

            last[state.Machine] = state;
            if (state.Outlook is { Features.Count: > 0 } outlook)
            {
                outlooks[state.Machine] = outlook;
            }
        }
    }

    /// <summary>The cuts seen so far; one that still runs counts up to now.</summary>
    /// <param name="now">The last moment.</param>
    public IReadOnlyList<RecordedCut> Cuts(DateTimeOffset now)
    {
        cuts.AddRange(recorders.Values.Where(recorder => recorder.Work is not null).Select(recorder => recorder.End(now)));
        return cuts;
    }

    private void Happened(CutRecorder recorder, MachineEvent here, MachineState state)
    {
        var before = last.GetValueOrDefault(state.Machine);
        switch (here)
        {
            case Measured measured when before is not null && maker.ModelOf(before) is { } model && PredictedBefore.Of(measured, before, model) is { } check:
                checks.Add(check);
                break;
            case CutMoved { Started: true } cut when recorder.Work is not { } running || recorder.EndsAt is not null || running.Serial != cut.Serial || running.Operation != cut.Operation:
                Close(recorder, here.Time);
                Begin(recorder, new WorkOnMachine(here.Machine, cut.Serial, cut.Operation), state, here.Time, null);
                break;
            case PermitRequested request when recorder.Work is null:
                Begin(recorder, new WorkOnMachine(here.Machine, request.Serial, request.Operation), state, here.Time, here.Time + Planned(request));
                break;
            case JobLoaded job when recorder.Work is { } running && running.Serial != job.Serial:
                Close(recorder, here.Time);
                break;
        }
    }

    private void Close(CutRecorder recorder, DateTimeOffset time)
    {
        if (recorder.Work is not null)
        {
            cuts.Add(recorder.End(time));
        }
    }

    // Holes and features of one operation are cuts of their own in the events; the record goes on until the operation is over.
    private static bool Ended(MachineEvent? here, CutRecorder recorder) =>
        here is CutMoved { Started: false, Hole: null } cut && cut.Serial == recorder.Work!.Value.Serial && cut.Feature is null;

    private void Begin(CutRecorder recorder, WorkOnMachine work, MachineState state, DateTimeOffset time, DateTimeOffset? endsAt)
    {
        var outlook = outlooks.GetValueOrDefault(state.Machine);
        var frozen = outlook is not null && outlook.Serial == work.Serial && outlook.Operation == work.Operation ? FrozenBy(outlook, state) : [];
        var drift = maker.Of(state, time, [], null).Drift;
        recorder.Begin(work, state.Job?.Part ?? "", time, endsAt, frozen, double.IsFinite(drift.X) ? drift : null);
    }

    private static Dictionary<string, Prediction> FrozenBy(Outlook outlook, MachineState state)
    {
        var permit = state.Cut?.PermitId is { } id ? $", permit {id}" : "";
        return outlook.Features.ToDictionary(
            feature => feature.Feature,
            feature => new Prediction(
                feature.TrailMicrometres.Count > 0 ? feature.TrailMicrometres.Average() : feature.EffectMicrometres, feature.WorstMicrometres, feature.UMicrometres,
                feature.Probability, outlook.IssuedAt, $"outlook {outlook.Seq} of {outlook.Machine}{permit}"),
            StringComparer.Ordinal);
    }

    private TimeSpan Planned(PermitRequested request) => request.Planned
        ?? cell.FindPart(request.Part)?.Features.Max(feature => feature.FinishDuration) ?? TimeSpan.FromMinutes(15);
}
