namespace ClimateGuard.Enclosure;

/// <summary>F23: heating and cooling work at the same time.</summary>
public static class F23HeatingAndCooling
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F23",
        Name = "heating and cooling together",
        Class = CauseClass.Control,
        Component = "control loop",
        Limits =
        [
            new("minutes", 20, "common practice, no source"),
            new("command", 0.05, "common practice, no source"),
        ],
        LeastData = "20 min",
        OnAfter = TimeSpan.FromMinutes(20),
        OffAfter = TimeSpan.FromMinutes(30),
        Confounders = "reheating while air is dried, which is intended",
        FirstCheck = new(
            "Read both valve positions at the controller.", "controller", "at the controller", 4,
            "both are open with no call for drying"),
        Source = "both commands open; APAR rule 22 (from memory)",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals is not { Cooling: { } cooling, Heating: { } heating }) yield break;
        var least = known.Limits.Of(Cause, "command");
        var limit = known.Limits.Of(Cause, "minutes");
        var (from, minutes) = RowMath.Longest(cooling.Length, m => cooling[m] > least && heating[m] > least);
        yield return known.About(Cause,
            [new($"heating and cooling were both open for {minutes} min (limit {limit:0} min)", Weight.Of(minutes, 1.5 * limit), "both open")],
            known.Zone?.Humidity is null ? ["the humidity is not measured, so drying on purpose cannot be ruled out"] : [], minutes >= limit ? from : null);
    }
}
