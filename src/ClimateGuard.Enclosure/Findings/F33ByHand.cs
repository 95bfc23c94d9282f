namespace ClimateGuard.Enclosure;

/// <summary>F33: the unit is held by hand.</summary>
public static class F33ByHand
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F33",
        Name = "air handler by hand",
        Class = CauseClass.Control,
        Component = "control loop",
        Limits =
        [
            new("minutes", 120, "common practice, no source"),
            new("errorKelvin", 0.3, "common practice, no source"),
        ],
        LeastData = "two hours",
        OnAfter = TimeSpan.FromMinutes(120),
        OffAfter = TimeSpan.FromMinutes(30),
        Confounders = "a command at its limit",
        FirstCheck = new(
            "Look at the hand-off-auto switch and the overrides of the controller.", "eyes, controller", "at the panel", 3,
            "the switch stands on hand"),
        Source = "command constant to the digit while the error moves (E.3, F33); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals.Cooling is not { } command || known.Error is not { } error) yield break;
        var (from, minutes) = Commands.Still(known.Signals, command);
        var usual = known.Baseline.Usually("command/still", Commands.LongestStill);
        known.Number("command/still", Commands.LongestStill);
        var limit = Math.Max(known.Limits.Of(Cause, "minutes"), usual.Days > 0 ? 2 * usual.Median : 0);
        var moved = minutes < 10 ? 0 : Robust.Range(error.AsSpan(from, minutes));
        var least = known.Limits.Of(Cause, "errorKelvin");
        yield return known.About(Cause,
        [
            new(FormattableString.Invariant($"the cooling command stood at one value for {minutes} min (limit {limit:0} min)"), Math.Min(8, Weight.Of(minutes, limit)), "command stands"),
            new(FormattableString.Invariant($"the room moved by {moved:0.0} K meanwhile"), moved < least ? -4 : Math.Min(4 * (moved - least), 3), "room moves"),
        ], [], minutes >= limit ? from : null);
    }
}
