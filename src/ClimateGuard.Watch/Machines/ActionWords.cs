using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Watch;

/// <summary>What can be done, as a person at the machine would be told.</summary>
internal static class ActionWords
{
    /// <summary>The actions that help, the best first; empty when none does.</summary>
    /// <param name="actions">All actions, ranked.</param>
    /// <param name="driftDecides">Whether drift, not temperature, is what is not known best.</param>
    /// <param name="spanIsKnown">Whether a span probe has shown which way an offset must go.</param>
    public static IReadOnlyList<string> Of(IReadOnlyList<RankedAction> actions, bool driftDecides, bool spanIsKnown) =>
    [
        .. actions.Where(action => action.ReachesSafety && action.Kind != ActionKind.StartNow)
            .OrderBy(action => IsMeasurement(action) && driftDecides != (action.Kind == ActionKind.Reprobe) ? 1 : 0)
            .Select(action => action.Kind == ActionKind.Offset && !spanIsKnown ? SpanBeforeOffset : Say(action)).OfType<string>().Distinct().Take(4),
    ];

    /// <summary>An offset, for the setter.</summary>
    public static string Of(ProposedOffset offset) => Offset(
        offset.ScaleFactor, offset.ShiftXMicrometres, offset.ShiftYMicrometres, offset.ShiftZMicrometres);

    // A slip of the sign doubles the effect, so the part is asked first (common practice, no source).
    private const string SpanBeforeOffset = "Probe a known length on the part (3 min) and enter the result; then an offset can be proposed.";

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
        ActionKind.Offset => action.Offset is { } offset
            ? Offset(offset.ScaleFactor, offset.ShiftXMicrometres, offset.ShiftYMicrometres, offset.ShiftZMicrometres)
            : null,
        ActionKind.Resequence => $"Cut first what is safe now: {string.Join(", ", action.Features)}.",
        ActionKind.OtherMachine => $"Machine {action.Machine} can take the part.",
        _ => null,
    };

    private static string ThenProbe(RankedAction action) => action.EndsWithReprobe ? ", then probe the datum again" : "";

    private static string Offset(double scale, double x, double y, double z) => FormattableString.Invariant(
        $"Setter only: scale {scale:0.000000} about the datum, shift X {x:+0.0;−0.0;0}, Y {y:+0.0;−0.0;0}, Z {z:+0.0;−0.0;0} µm; check the sign by a probe.");
}
