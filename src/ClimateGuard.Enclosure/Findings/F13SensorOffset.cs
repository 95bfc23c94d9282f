namespace ClimateGuard.Enclosure;

/// <summary>F13: a sensor reads beside the truth.</summary>
public static class F13SensorOffset
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F13",
        Name = "sensor offset",
        Class = CauseClass.Sensor,
        Component = "sensor",
        Limits =
        [
            new("offsetKelvin", 0.3, "common practice, no source"),
            new("hours", 6, "common practice, no source"),
        ],
        LeastData = "six hours beside two neighbours",
        OnAfter = TimeSpan.FromMinutes(360),
        OffAfter = TimeSpan.FromMinutes(360),
        Confounders = "stratification, which repeats at the same place (other days tell)",
        FirstCheck = new(
            "Hold a reference thermometer beside the sensor for ten minutes.", "reference thermometer", "at the sensor", 12,
            "the sensor reads more than 0.3 K beside the reference"),
        Source = "steady difference to the neighbours against other days (E.3, F13); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        if (known.Signals.Air.Count < 3)
        {
            if (known.Signals.Air.Count > 0) yield return known.About(Cause, [], ["fewer than three air sensors in the zone: an offset cannot be told from the room"]);
            yield break;
        }

        // A sensor under the roof shows stratification (F20) before it shows an offset.
        foreach (var air in known.Signals.Air.Where(a => !(a.Sensor.HeightMetres >= 3)))
        {
            var apart = Neighbours.Hours(known, air.Sensor.Id);
            var usual = known.Usually($"apart/{air.Sensor.Id}", s => Robust.Median(Neighbours.Hours(s, air.Sensor.Id)));
            var centre = usual.Learned ? usual.Median : 0;
            var limit = known.Limits.Of(Cause, "offsetKelvin") * (usual.Learned ? 1 : 2) + (usual.Learned ? 3 * usual.Sigma : 0);
            var beside = apart.Where(h => Math.Abs(h - centre) >= 0.5 * limit).ToList();
            if (apart.Length < 3) continue;
            var offset = beside.Count == 0 ? 0 : Robust.Median(beside) - centre;
            var hours = known.Limits.Of(Cause, "hours");
            var steady = beside.Count < 3 ? 0 : Robust.Sigma(beside) / Math.Max(0.05, Math.Abs(offset));
            yield return known.About(Cause,
            [
                new(FormattableString.Invariant($"{air.Sensor.Id} reads {offset:+0.00;-0.00} K beside its neighbours for {beside.Count} h (limit {limit:0.0} K)"), Weight.Of(Math.Abs(offset), limit, Math.Min(1, beside.Count / hours)), $"{air.Sensor.Id} apart"),
                new("the difference is " + (steady > 0.25 ? "not steady" : "steady"), steady > 0.25 ? -5 : beside.Count >= hours ? 1 : 0, $"{air.Sensor.Id} steady"),
            ], usual.Learned ? [] : ["no other day shows how this sensor usually stands to its neighbours"], Neighbours.Onset(apart, centre, 0.5 * limit)) with { Sensor = air.Sensor.Id, Words = $"{air.Sensor.Id} reads wrong by an offset" };
        }
    }
}
