namespace ClimateGuard.Enclosure;

/// <summary>F17: the walls let more through than they did.</summary>
public static class F17LeakyEnvelope
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F17",
        Name = "leaky envelope",
        Class = CauseClass.Envelope,
        Component = "envelope",
        Limits =
        [
            new("rise", 0.3, "common practice, no source"),
        ],
        LeastData = "two weeks; a day alone is a hint",
        OnAfter = TimeSpan.FromMinutes(20160),
        OffAfter = TimeSpan.FromMinutes(20160),
        Confounders = "season",
        FirstCheck = new(
            "Walk along the seals and penetrations with a smoke tube.", "smoke tube", "at walls and gates", 20,
            "air moves through a seam"),
        Source = "slope of the cooling delivered over hall minus room against other days (E.3, F17); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        var slope = known.Number("wall", WallHeat.Slope);
        var usual = known.Usually("wall", WallHeat.Slope);
        if (!WallHeat.AllInControl(known))
        {
            yield return known.About(Cause, [], ["the room or its neighbour was not in control, so what it takes from the hall cannot be told from other causes"]);
            yield break;
        }

        if (double.IsNaN(slope) || !usual.Learned || !(usual.Median > 0.01))
        {
            yield return known.About(Cause, [], ["the heat through the walls cannot be told: too little movement of the hall, or no other days"]);
            yield break;
        }

        var limit = known.Limits.Of(Cause, "rise") + (2 * usual.Sigma / usual.Median);
        var rise = (slope / usual.Median) - 1;
        var moist = DewPointMargin.Risen(known);
        List<Evidence> evidence =
        [
            new(FormattableString.Invariant($"the dew point moved by {moist:+0.0;-0.0} K: outside air brings its moisture along"), double.IsNaN(moist) ? 0 : WallHeat.Moist(moist, rise) ? 1.5 : -5, "dew point"),
            new(FormattableString.Invariant($"per kelvin to the hall the room takes {100 * rise:+0;-0} % heat against other days (limit {100 * limit:0} %)"), Weight.Of(rise, limit, 0.9), "wall heat"),
        ];
        AirWay.Against(known.Lead, evidence);
        yield return known.About(Cause, evidence, ["one day only: two weeks would make it sure"]);
    }
}
