using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Watches one machine step by step for <see cref="CutObserver"/>: what it says of the rules holds here.</summary>
internal sealed class CutWatch
{
    private readonly Cell cell;
    private readonly Machine machine;
    private readonly SampleMaker maker;
    private readonly CutRecorder recorder = new();
    private MachineState? last;

    // An override and missing inputs issue outlooks without numbers; the last one with numbers is what was predicted.
    private Outlook? outlook;

    /// <summary>Begins with nothing seen.</summary>
    public CutWatch(Cell cell, Machine machine)
    {
        this.cell = cell;
        this.machine = machine;
        maker = new SampleMaker(cell);
    }

    /// <summary>Told of each cut when it is over.</summary>
    public required Action<RecordedCut> Cut { get; init; }

    /// <summary>Told of each measurement beside what was predicted of it.</summary>
    public required Action<ModelCheck> Check { get; init; }

    /// <summary>Takes one step of the machine.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="here">What happened at it, or null.</param>
    /// <param name="state">The machine after the step.</param>
    /// <param name="gradientOf">How much warmer the air of a zone is under the roof, in K; asked where a sample is taken.</param>
    public void Take(DateTimeOffset moment, MachineEvent? here, MachineState state, Func<string, double> gradientOf)
    {
        if (here is not null)
        {
            Happened(here, state);
        }

        if (state.Job is { IsUnload: false } && (here is CutMoved || recorder.Wants(moment)))
        {
            recorder.Add(maker.Of(state, moment, gradientOf(machine.Zone), recorder.DriftAtStart));
        }

        if (recorder.Work is not null && (Ended(here, recorder) || recorder.EndsAt <= moment))
        {
            Cut(recorder.End(moment));
        }

        last = state;
        if (state.Outlook is { Features.Count: > 0 } known)
        {
            outlook = known;
        }
    }

    /// <summary>Ends what still runs; it counts up to now.</summary>
    public void Close(DateTimeOffset now)
    {
        if (recorder.Work is not null)
        {
            Cut(recorder.End(now));
        }
    }

    private void Happened(MachineEvent here, MachineState state)
    {
        switch (here)
        {
            case Measured measured when last is not null && maker.ModelOf(last) is { } model && PredictedBefore.Of(measured, last, model) is { } check:
                Check(check);
                break;
            case CutMoved { Started: true } cut when recorder.Work is not { } running || recorder.EndsAt is not null || running.Serial != cut.Serial || running.Operation != cut.Operation:
                Close(here.Time);
                Begin(new WorkOnMachine(here.Machine, cut.Serial, cut.Operation), state, here.Time, null);
                break;
            case PermitRequested request when recorder.Work is null:
                Begin(new WorkOnMachine(here.Machine, request.Serial, request.Operation), state, here.Time, here.Time + Planned(request));
                break;
            case JobLoaded job when recorder.Work is { } running && running.Serial != job.Serial:
                Close(here.Time);
                break;
        }
    }

    // Holes and features of one operation are cuts of their own in the events; the record goes on until the operation is over.
    private static bool Ended(MachineEvent? here, CutRecorder recorder) =>
        here is CutMoved { Started: false, Hole: null } cut && cut.Serial == recorder.Work!.Value.Serial && cut.Feature is null;

    private void Begin(WorkOnMachine work, MachineState state, DateTimeOffset time, DateTimeOffset? endsAt)
    {
        var frozen = outlook is not null && outlook.Serial == work.Serial && outlook.Operation == work.Operation ? FrozenBy(outlook, state) : [];
        var drift = maker.Of(state, time, double.NaN, null).Drift;
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
