namespace ClimateGuard.Enclosure;

/// <summary>F30: the power went away and came back.</summary>
public static class F30PowerEvent
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F30",
        Name = "electrical power event",
        Class = CauseClass.Other,
        Component = "power supply",
        Limits =
        [
            new("sources", 3, "common practice, no source"),
        ],
        LeastData = "three sources silent within two minutes",
        OnAfter = TimeSpan.FromMinutes(2),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "an outage of the network: then the machines go on",
        FirstCheck = new(
            "Look at breakers, UPS and the restart order of the drives.", "eyes", "at the distribution board", 8,
            "a breaker tripped or an event is in the log of the UPS"),
        Source = "several signals silent or reset together (E.3, F30); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        var frame = known.Signals.Frame;
        if (frame.Regular < 3) yield break;
        var (from, minutes) = RowMath.Longest(frame.Minutes, m => frame.Silent[m] >= known.Limits.Of(Cause, "sources"));
        var most = from < 0 ? 0 : Enumerable.Range(from, minutes).Max(m => frame.Silent[m]);
        var stopped = known.Signals.Handlers.Count(h => from >= 0 && Restart.Near(h, from, minutes));
        yield return known.About(Cause,
        [
            new($"{most} of {frame.Regular} sources fell silent together for {minutes} min", minutes == 0 ? -4 : Weight.Of(most, known.Limits.Of(Cause, "sources")), "sources silent"),
            new($"{stopped} air handlers stopped and started again", stopped > 0 ? 3 : -2, "restart"),
            new("nearly every source was silent, as in an outage of the network", from >= 0 && most >= 0.95 * frame.Regular ? -1 : 0, "all silent"),
        ], [], minutes > 0 ? from : null);
    }
}
