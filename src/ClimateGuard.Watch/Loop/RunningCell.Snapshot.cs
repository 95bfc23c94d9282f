using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What a running cell shows to pages and HTTP.</summary>
public sealed partial class RunningCell
{
    private CellSnapshot SnapshotAt(DateTimeOffset moment) => new()
    {
        Cell = cell,
        ConfigVersion = plant.Version,
        ConfigSince = since,
        RefusedPlant = refusedPlant,
        Time = moment,
        Machines = [.. states.Select((state, i) => Of(cell.Machines[i], state))],
        Sensors = now.SensorsAt(moment),
        Air = air.SnapshotFor(states),
        Counts = new LoopCounts(readings, quarantined, unreadable, events, refused, rate.PerSecond),
    };

    private static MachineSnapshot Of(Machine machine, MachineState state) => new()
    {
        Machine = machine,
        Outlook = state.Outlook ?? OutlookMaker.BeforeTheFirst(machine, state.At),
        Job = state.Job,
        AirCelsius = Known(state.Climate.AirMissingBecause is null ? state.Climate.AirCelsius : double.NaN),
        CoolantCelsius = Known(state.Climate.CoolantCelsius),
        CoolantOn = state.CoolantOn,
        Permits = state.Permits,
        Override = state.Override,
        Cut = state.Cut,
        ProposedOffset = state.SpanIsKnown ? state.Prospect?.Offset : null,
        Offset = state.Offset,
        Trace = state.Trace.Points,
    };

    private static double? Known(double value) => double.IsNaN(value) ? null : value;
}
