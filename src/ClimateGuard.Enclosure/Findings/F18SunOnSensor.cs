namespace ClimateGuard.Enclosure;

/// <summary>F18: the sun or another radiant source warms a sensor.</summary>
public static class F18SunOnSensor
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F18",
        Name = "sun on a sensor",
        Class = CauseClass.Envelope,
        Component = "sensor",
        Limits =
        [
            new("bumpKelvin", 0.3, "common practice, no source"),
        ],
        LeastData = "three clear days; a day alone is a hint",
        OnAfter = TimeSpan.FromMinutes(4320),
        OffAfter = TimeSpan.FromMinutes(4320),
        Confounders = "exhaust of a machine at the same hour",
        FirstCheck = new(
            "Shade the sensor at that hour.", "cardboard", "at the sensor", 10,
            "its value falls within ten minutes"),
        Source = "one sensor rises by itself for some hours of the day (E.3, F18); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        if (known.Signals.Air.Count < 3) yield break;
        foreach (var air in known.Signals.Air)
        {
            var apart = Neighbours.Hours(known, air.Sensor.Id);
            if (apart.Length < 8) continue;
            var usual = known.Usually($"bump/{air.Sensor.Id}", s => Bump.Of(Neighbours.Hours(s, air.Sensor.Id)).Kelvins);
            var (kelvins, hours, smooth) = Bump.Of(apart);
            var limit = known.Limits.Of(Cause, "bumpKelvin") + (usual.Learned ? Math.Max(0, usual.Median) + (2 * usual.Sigma) : 0.2);
            List<Evidence> evidence =
            [
                new(FormattableString.Invariant($"{air.Sensor.Id} alone rose by {kelvins:0.0} K for {hours} h and came back (limit {limit:0.0} K)"), Weight.Of(kelvins, limit), $"{air.Sensor.Id} apart"),
                new("the room was not in control meanwhile, so its sensors part for other reasons too", WallHeat.InControl(known.Signals) < 0.6 ? -5 : 0, $"{air.Sensor.Id} out of control"),
                new(smooth ? "it rose and fell smoothly" : "it did not rise and fall smoothly", smooth ? 1 : -4, $"{air.Sensor.Id} smooth"),
            ];
            AirWay.Against(known.Lead, evidence);
            yield return known.About(Cause, evidence, ["one day only: the same clock time on three clear days would make it sure"]) with { Sensor = air.Sensor.Id, Words = $"sun or radiant heat on {air.Sensor.Id}" };
        }
    }
}
