using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>The watch of one machine: a pure step from a state and a moment to the next state and what was decided.</summary>
/// <remarks>No I/O and no clock: it can be replayed from a file, restored after a crash, and tested without a host.</remarks>
public sealed class MachineWatch
{
    private readonly Cell cell;
    private readonly Machine machine;
    private readonly TimeSpan partSensorLag;
    private readonly ThermalModel empty;
    private readonly Dictionary<string, ThermalModel> byPart = new(StringComparer.Ordinal);
    private readonly OutlookMaker outlooks;
    private readonly PermitDesk permits;
    private readonly OverrideDesk overrides;

    /// <summary>Begins to watch a machine of a cell.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="machine">One of its machines.</param>
    /// <param name="configVersion">Version of the plant file that describes them.</param>
    public MachineWatch(Cell cell, Machine machine, string configVersion = "")
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(machine);
        this.cell = cell;
        this.machine = machine;
        partSensorLag = cell.Sensors.FirstOrDefault(s => s.Place == SensorPlace.Part && s.Machine == machine.Id)?.TimeConstant ?? TimeSpan.Zero;
        empty = new ThermalModel(machine, null, reference: cell.Description.Reference);
        outlooks = new OutlookMaker(cell, machine);
        permits = new PermitDesk(cell, machine, outlooks, configVersion);
        overrides = new OverrideDesk(cell);
    }

    /// <summary>The state of a machine of which nothing is known yet.</summary>
    /// <param name="now">The moment.</param>
    public MachineState Begin(DateTimeOffset now) => new() { Machine = machine.Id, At = now };

    /// <summary>A state that was kept by an earlier worker, as far as it fits the plant file of now.</summary>
    /// <param name="kept">The state.</param>
    public MachineState Fitting(MachineState kept)
    {
        ArgumentNullException.ThrowIfNull(kept);
        var fits = kept.Thermal is null || kept.Thermal.Count == ModelOf(kept).Layout.Count;
        return fits ? kept : kept with { Thermal = null, JobIsIn = false };
    }

    /// <summary>The state of this machine as it goes on under another version of the plant file: the next step computes everything anew.</summary>
    /// <remarks>
    /// Temperatures, drift, permits, hold and waits go on. Where the description changed what the numbers of the model mean (other modes of
    /// drift or spindle, another screw), the machine begins to be watched anew and its part counts as just loaded.
    /// </remarks>
    /// <param name="before">The watch of the machine under the version before.</param>
    /// <param name="state">Its state.</param>
    internal MachineState CarriedOver(MachineWatch before, MachineState state)
    {
        var next = state with { EvaluatedAt = null, Prospect = null };
        return MeaningOfNumbers(machine).SequenceEqual(MeaningOfNumbers(before.machine)) ? next : next with { Thermal = null, JobIsIn = false };
    }

    private static IEnumerable<object?> MeaningOfNumbers(Machine machine) =>
    [
        .. machine.Drift.Select(mode => (object)mode.Axis), "spindle", .. machine.Spindle.Select(mode => (object)mode.Axis),

        // What the screw moved when the datum was probed is kept in µm, for this screw.
        machine.Scale.Screw, machine.Scale.Screw is null ? null : (machine.Scale.AlphaMicrometresPerMetreKelvin, machine.Scale.Compensated),
    ];

    /// <summary>One step.</summary>
    /// <param name="state">The state before; it is not changed.</param>
    /// <param name="moment">What happened.</param>
    /// <returns>The state after, and what was decided, in order.</returns>
    public (MachineState State, IReadOnlyList<Decision> Decisions) Step(MachineState state, MachineMoment moment) => StepInto(null, state, moment);

    /// <summary>The same step; where time passes, the temperatures after it are written into a work area instead of a new one.</summary>
    /// <param name="room">A work area of this machine that nobody reads any more, or null.</param>
    /// <param name="state">The state before; it is not changed.</param>
    /// <param name="moment">What happened.</param>
    /// <returns>The state after, which may hold the work area, and what was decided, in order.</returns>
    internal (MachineState State, IReadOnlyList<Decision> Decisions) StepInto(ThermalState? room, MachineState state, in MachineMoment moment)
    {
        ArgumentNullException.ThrowIfNull(state);
        var next = Moved(state, moment, room);
        next = moment.Event is null ? next : JobEvents.Take(next, moment.Event);
        next = TakeJobIntoModel(Observed(next, moment.Climate, isOwn: !ReferenceEquals(next.Thermal, state.Thermal)));
        if (moment is { Event: null, OnlyFollow: true } && next.Override is null)
        {
            return (next, []);
        }

        List<Decision> decisions = [];
        var (cause, evaluation) = (TimingCause.Tick, (Evaluation?)null);
        if (moment.Event is not null)
        {
            (next, cause, evaluation) = TakeEvent(next, moment.Event, decisions);
        }

        next = Expire(next, decisions);
        if (moment.OnlyFollow)
        {
            return (next, decisions);
        }

        var (renewed, issued) = outlooks.Renew(next, ModelOf(next), cause, evaluation);
        decisions.AddRange(issued);
        return (PermitLife.Revoked(renewed, decisions), decisions);
    }

    /// <summary>The state with an outlook of this moment for who looks back on a cut that now begins; nothing is decided by it.</summary>
    internal MachineState LookBack(MachineState state) => outlooks.LookBack(state, ModelOf(state));

    private (MachineState State, TimingCause Cause, Evaluation? Evaluation) TakeEvent(MachineState state, MachineEvent happened, List<Decision> decisions)
    {
        switch (happened)
        {
            case PermitRequested request:
                var (answered, evaluation, answers) = permits.Answer(state, ModelOf(state), request);
                decisions.AddRange(answers);
                return (answered, TimingCause.Asked, evaluation);
            case CutMoved cut:
                return (PermitLife.CutMoved(state, cut, decisions), TimingCause.Happened, null);
            case Overridden said:
                return (Overrule(state, said, decisions), TimingCause.Asked, null);
            case DatumProbed or Measured:
                var measured = MeasurementsTaken.Into(state, ModelOf(state), happened);
                MeasurementsTaken.Score(state, measured, ModelOf(state), happened, decisions);
                return (measured with { Permits = measured.Permits with { Latch = null } }, TimingCause.Measured, null);
            default:
                return (state, happened is JobLoaded or OffsetSet ? TimingCause.Asked : TimingCause.Happened, null);
        }
    }

    private MachineState Overrule(MachineState state, Overridden said, List<Decision> decisions)
    {
        var part = state.Job is { } job && job.Serial == said.Serial ? cell.FindPart(job.Part) : null;
        var (taken, refused) = overrides.Take(state.Override, said, part?.Class ?? PartClass.Critical, state.At);
        decisions.Add(new OverrideTaken(state.At, machine.Id, taken, refused));
        return state with
        {
            Override = taken ?? state.Override,
            Permits = taken is { InForce: true } ? state.Permits with { Latch = null } : state.Permits,
        };
    }

    /// <summary>An override ends with its time, or with another part.</summary>
    private static MachineState Expire(MachineState state, List<Decision> decisions)
    {
        if (state.Override is not { } taken
            || (state.At < taken.Until && (state.Job is null || (state.Job.Serial == taken.Serial && state.Job.Operation == taken.Operation))))
        {
            return state;
        }

        decisions.Add(new OverrideTaken(state.At, state.Machine, null, $"the override of {taken.By} has ended"));
        return state with { Override = null };
    }

    private ThermalModel ModelOf(MachineState state)
    {
        if (state.Job is not { IsUnload: false } job || cell.FindPart(job.Part) is not { } part)
        {
            return empty;
        }

        if (!byPart.TryGetValue(part.Number, out var model))
        {
            model = new ThermalModel(machine, part, reference: cell.Description.Reference, partSensorLag: partSensorLag);
            byPart.Add(part.Number, model);
        }

        return model;
    }

    // Time has passed and the surroundings are those of now. Where the air is not known, the air last known stays in force for the model; that it is
    // not known any more is the outlook's matter.
    private MachineState Moved(MachineState state, in MachineMoment moment, ThermalState? room)
    {
        var now = moment.Time < state.At ? state.At : moment.Time;
        var climate = double.IsNaN(moment.Climate.AirCelsius)
            ? moment.Climate with { AirCelsius = state.Thermal is null ? double.NaN : state.Climate.AirCelsius }
            : moment.Climate;
        return state with { At = now, Thermal = Advanced(state, now, room), Climate = climate, AirAhead = moment.AirAhead };
    }

    private ThermalState? Advanced(MachineState state, DateTimeOffset now, ThermalState? room)
    {
        if (state.Thermal is null || now <= state.At)
        {
            return state.Thermal;
        }

        var thermal = state.Thermal.CopyInto(room);
        var model = ModelOf(state);
        var around = Around.Of(machine, state, state.At);
        DryingFilm.Advance(model, thermal, around, Around.WetLeft(state, state.At) ?? TimeSpan.Zero, around.AirCelsius, now - state.At);
        model.Forget(thermal, now - state.At);
        return thermal;
    }

    private MachineState Observed(MachineState state, in LocalClimate climate, bool isOwn) =>
        double.IsNaN(climate.AirCelsius) ? state
        : state.Thermal is null ? state with { Thermal = empty.Settled(new Surroundings(climate.AirCelsius, SpindleLoad: state.SpindleLoad)) }
        : SensorsOnMachine.Observe(state, ModelOf(state), isOwn);

    private MachineState TakeJobIntoModel(MachineState state)
    {
        if (state.Thermal is null || state.JobIsIn || state.Job is not { } job || cell.FindPart(job.Part) is null)
        {
            return state;
        }

        var model = ModelOf(state);
        var thermal = state.Thermal.Copy();
        StartTemperature.Load(model, thermal, job, state);

        // Setting a part up includes probing its datum; an event datumProbed moves that moment later.
        model.ProbeDatum(thermal, [Axis.X, Axis.Y, Axis.Z]);
        return state with { Thermal = thermal, JobIsIn = true, ProbedAt = [state.At, state.At, state.At] };
    }
}
