namespace ClimateGuard.Enclosure;

/// <summary>F09: the chilled water comes too warm.</summary>
public static class F09ChilledWaterWarm
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F09",
        Name = "chilled water too warm",
        Class = CauseClass.Cooling,
        Component = "chilled water supply",
        Limits =
        [
            new("riseKelvin", 2.0, "common practice, no source"),
        ],
        LeastData = "30 min",
        OnAfter = TimeSpan.FromMinutes(30),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "chiller staging, change-over to free cooling",
        FirstCheck = new(
            "Read the chiller alarms and the supply temperature.", "eyes, thermometer", "at the chiller", 8,
            "an alarm stands, or a pump is off"),
        Source = "chilled-water temperature against other days (E.3, F09); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion) yield break;
        if (known.Signals.Of("chilledWater") is null)
        {
            yield return known.About(Cause, [], ["the chilled-water temperature is not measured"]);
            yield break;
        }

        var (rise, from, learned) = Water.Rise(known);
        var limit = known.Limits.Of(Cause, "riseKelvin");
        yield return known.About(Cause,
            [new(FormattableString.Invariant($"the chilled water was {rise:0.0} K warmer than usual for 30 min (limit {limit:0.0} K)"), Weight.Of(rise, limit, learned ? 1 : 0.8), "warm water")],
            learned ? [] : ["no other day shows the usual temperature of the chilled water"], rise >= limit ? from : null);
    }
}
