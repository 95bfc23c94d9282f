namespace ClimateGuard.Enclosure;

/// <summary>F15: a sensor follows late.</summary>
public static class F15SensorSlow
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F15",
        Name = "sensor slow or badly placed",
        Class = CauseClass.Sensor,
        Component = "sensor",
        Limits =
        [
            new("lagMinutes", 5, "common practice, no source"),
        ],
        LeastData = "a day in which the room moves by 0.3 K",
        OnAfter = TimeSpan.FromMinutes(1440),
        OffAfter = TimeSpan.FromMinutes(1440),
        Confounders = "a shield or a box around the sensor",
        FirstCheck = new(
            "Look where the sensor sits and what covers it.", "eyes", "at the sensor", 5,
            "it sits in a box, a corner or on a wall"),
        Source = "lag of the best correlation with the neighbours (E.3, F15); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        if (known.Signals.Air.Count < 3) yield break;
        foreach (var air in known.Signals.Air.Where(a => !(a.Sensor.HeightMetres >= 3)))
        {
            var lag = Neighbours.Lag(known.Signals, air.Sensor.Id);
            if (double.IsNaN(lag)) continue;
            var usual = known.Usually($"lag/{air.Sensor.Id}", s => Neighbours.Lag(s, air.Sensor.Id));
            var extra = lag - (usual.Learned ? Math.Max(0, usual.Median) : 0);
            var limit = known.Limits.Of(Cause, "lagMinutes");
            yield return known.About(Cause,
                [new(FormattableString.Invariant($"{air.Sensor.Id} follows its neighbours {extra:0} min later than usual (limit {limit:0} min)"), Weight.Of(extra, limit, usual.Learned ? 1 : 0.7), $"{air.Sensor.Id} late")],
                []) with { Sensor = air.Sensor.Id, Words = $"{air.Sensor.Id} is slow" };
        }
    }
}
