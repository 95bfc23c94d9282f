using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>What can be done, as a person at the machine would be told.</summary>
internal static class ActionWords
{
    /// <summary>The actions that help, the best first; empty when none does.</summary>
    /// <param name="actions">All actions, ranked.</param>
    /// <param name="driftDecides">Whether drift, not temperature, is what is not known best.</param>
    public static IReadOnlyList<string> Of(IReadOnlyList<RankedAction> actions, bool driftDecides) =>
    [
        .. actions.Where(action => action.ReachesSafety && action.Kind != ActionKind.StartNow)
            .OrderBy(action => IsMeasurement(action) && driftDecides != (action.Kind == ActionKind.Reprobe) ? 1 : 0)
            .Select(Say).OfType<string>().Distinct().Take(4),
    ];

    private static bool IsMeasurement(RankedAction action) =>
        action.Kind is ActionKind.Reprobe or ActionKind.SpanProbe or ActionKind.ContactTemperature && action.Measurement is not null;

    private static string? Say(RankedAction action) => action.Kind switch
    {
        ActionKind.Reprobe => $"Probe the datum again ({Words.Minutes(action.Takes)}), then start.",
        ActionKind.SpanProbe => $"Probe a known length on the part ({Words.Minutes(action.Takes)}) and enter the result.",
        ActionKind.ContactTemperature => $"Take the part's temperature by contact ({Words.Minutes(action.Takes)}) and enter it.",
        ActionKind.Rinse => $"Flood the part {Words.Minutes(action.Exposure!.Value)} with coolant, blow it dry, probe the datum again.",
        ActionKind.Fan => $"Blow room air over the part for {Words.Minutes(action.Exposure!.Value)}{ThenProbe(action)}.",
        ActionKind.Soak => $"Let the part soak {Words.Minutes(action.Takes)}{ThenProbe(action)}.",
        ActionKind.DryOff => $"Blow the part dry{ThenProbe(action)}.",
        ActionKind.WarmUp => $"Warm the spindle up for {Words.Minutes(action.Exposure!.Value)}, then probe the datum again.",
        ActionKind.KeepSpindleTurning => $"Keep the spindle turning and wait {Words.Minutes(action.Takes)}.",
        ActionKind.Offset => Offset(action.Offset),
        ActionKind.Resequence => $"Cut first what is safe now: {string.Join(", ", action.Features)}.",
        ActionKind.OtherMachine => $"Machine {action.Machine} can take the part.",
        _ => null,
    };

    private static string ThenProbe(RankedAction action) => action.EndsWithReprobe ? ", then probe the datum again" : "";

    private static string? Offset(OffsetProposal? offset) => offset is null
        ? null
        : FormattableString.Invariant(
            $"Setter only: scale {offset.ScaleFactor:0.000000} about the datum, shift X {offset.ShiftXMicrometres:+0.0;−0.0;0}, Y {offset.ShiftYMicrometres:+0.0;−0.0;0}, Z {offset.ShiftZMicrometres:+0.0;−0.0;0} µm; check the sign by a probe.");
}
