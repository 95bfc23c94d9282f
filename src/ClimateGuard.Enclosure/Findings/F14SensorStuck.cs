namespace ClimateGuard.Enclosure;

/// <summary>F14: a sensor repeats one value.</summary>
public static class F14SensorStuck
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F14",
        Name = "sensor stuck",
        Class = CauseClass.Sensor,
        Component = "sensor",
        Limits =
        [
            new("minutes", 60, "common practice, no source"),
            new("neighbourKelvin", 0.2, "common practice, no source"),
        ],
        LeastData = "an hour in which the neighbours move by 0.2 K",
        OnAfter = TimeSpan.FromMinutes(60),
        OffAfter = TimeSpan.FromMinutes(10),
        Confounders = "a very steady room; a sensor of coarse steps",
        FirstCheck = new(
            "Warm the sensor with the hand.", "hand", "at the sensor or its gateway", 5,
            "its value does not move"),
        Source = "identical digits while the neighbours move (E.3, F14); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        foreach (var air in known.Signals.Air)
        {
            var (from, minutes) = RowMath.Longest(air.Row.Length, m => m > 0 && Math.Abs(air.Row[m] - air.Row[m - 1]) < 1e-6);
            var others = RowMath.MedianOf([.. known.Signals.Air.Where(other => other != air)], air.Row.Length);
            if (others is null) yield break;
            var moved = minutes < 30 ? 0 : Robust.Range(RowMath.Blocks(others[from..(from + minutes)], 5));
            var usual = known.Usually($"repeats/{air.Sensor.Id}", s => Neighbours.LongestRepeat(s, air.Sensor.Id));
            var limit = Math.Max(known.Limits.Of(Cause, "minutes"), usual.Learned ? 2 * usual.Median : 0);
            yield return known.About(Cause,
            [
                new($"{air.Sensor.Id} repeated one value for {minutes} min (limit {limit:0} min)", Weight.Of(minutes, limit), $"{air.Sensor.Id} repeats"),
                new(FormattableString.Invariant($"its neighbours moved by {moved:0.0} K meanwhile"), minutes < 30 ? 0 : Math.Clamp(6 * (moved - known.Limits.Of(Cause, "neighbourKelvin")) / 0.2, -5, 2), $"{air.Sensor.Id} neighbours move"),
            ], [], minutes >= limit ? from : null) with { Sensor = air.Sensor.Id, Words = $"{air.Sensor.Id} is stuck" };
        }
    }
}
