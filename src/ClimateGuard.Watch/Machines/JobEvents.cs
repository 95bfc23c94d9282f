using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Takes what happened at a machine into its state, before anything is computed.</summary>
internal static class JobEvents
{
    public static MachineState Take(MachineState state, MachineEvent happened) => happened switch
    {
        JobLoaded { IsUnload: true } => Unloaded(state),
        JobLoaded job => Unloaded(state) with { Job = job },
        PermitRequested request when state.Job is null => Unloaded(state) with { Job = JobOf(request) },
        CoolantSwitched coolant => state with { CoolantOn = coolant.On, WetSince = WetSince(state, coolant) },
        SpanProbed span => state with { SpanProbedAt = span.Time },
        DatumProbed or DatumReprobed => state with { Offset = null },

        // For another part than the one that lies here it means nothing; the line of the event stays in the ledger.
        OffsetSet set when set.Serial == state.Job?.Serial => state with { Offset = StandingOffset.Of(set) },
        MachineRunning running => state with { SpindleLoad = running.Running ? 1 : 0 },
        _ => state,
    };

    /// <summary>Since when the part is wet: coolant that is said to be off once more says nothing new, blown dry ends it.</summary>
    private static DateTimeOffset? WetSince(MachineState state, CoolantSwitched coolant) =>
        coolant.On || coolant.Dry ? null : state.CoolantOn ? coolant.Time : state.WetSince;

    private static MachineState Unloaded(MachineState state) => state with
    {
        Job = null, JobIsIn = false, CoolantOn = false, WetSince = null, Cut = null, EvaluatedAt = null, Prospect = null, SpanProbedAt = null, Offset = null,
        Permits = state.Permits with { Latch = null },
    };

    /// <summary>A control that asks without anyone having said what is loaded says it itself; where the part came from is then not known.</summary>
    private static JobLoaded JobOf(PermitRequested request) => new(request.Time, request.Machine)
    {
        Serial = request.Serial, Part = request.Part, Operation = request.Operation, Planned = request.Planned,
    };
}
