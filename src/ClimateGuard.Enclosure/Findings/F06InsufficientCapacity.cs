namespace ClimateGuard.Enclosure;

/// <summary>F06: the coil is fully open and the room is still too warm.</summary>
public static class F06InsufficientCapacity
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F06",
        Name = "not enough cooling capacity",
        Class = CauseClass.Cooling,
        Component = "cooling capacity",
        Limits =
        [
            new("minutes", 30, "common practice, no source"),
            new("errorKelvin", 0.2, "common practice, no source"),
        ],
        LeastData = "30 min at full command",
        OnAfter = TimeSpan.FromMinutes(30),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "a door open, a new heat load, warm chilled water, a filter: each is a finding of its own and explains this one",
        FirstCheck = new(
            "Read the chilled-water supply temperature and list what heats the room.", "thermometer, list of loads", "at the unit", 12,
            "water and air flow are as usual and no load is new"),
        Source = "command at its limit with a standing error; APAR rules 13, 14, 19, 20 (from memory)",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Error is not { } error || known.Signals.Cooling is not { } command) yield break;
        var least = known.Limits.Of(Cause, "errorKelvin");
        var (from, minutes) = RowMath.Longest(error.Length, m => known.Signals.FanOn[m] && command[m] >= 0.95 && error[m] >= least);
        var rising = minutes >= 30 && RowMath.Mean(error, from + minutes - 10, 10) - RowMath.Mean(error, from, 10) >= -0.05 * minutes / 60;
        var limit = known.Limits.Of(Cause, "minutes");
        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"{minutes} min at full cooling with the room {least:0.0} K or more too warm (limit {limit:0} min)"), Weight.Of(minutes, limit, rising || minutes < limit ? 1 : 0.5), "room warm at full cooling"),
        };
        Water.Against(known, evidence);
        AirWay.Against(known, evidence);
        Coil.FlatAgainst(known, evidence);
        Compressor.Against(known, evidence);
        if (Coil.Share(known).Share is > Coil.LeastShareOfDirty and < 0.87) evidence.Add(new("the coil is weaker than usual by a part, which dirt on it explains", -4, "coil weak by a part"));
        if (known.Zone!.Doors.Any(d => from >= 0 && RowMath.Mean(d.Row, from, Math.Max(1, minutes)) > 0.3)) evidence.Add(new("a door was open meanwhile", -5, "door open"));
        yield return known.About(Cause, evidence, known.Signals.Of("chilledWater") is null && known.Signals.Handler.Medium is Plant.CoolingMedium.ChilledWater ? ["the chilled-water temperature is not measured, so warm water cannot be ruled out"] : [], minutes >= limit ? from : null);
    }
}
