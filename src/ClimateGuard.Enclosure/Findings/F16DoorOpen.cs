namespace ClimateGuard.Enclosure;

/// <summary>F16: a door stands open.</summary>
public static class F16DoorOpen
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F16",
        Name = "door left open",
        Class = CauseClass.Envelope,
        Component = "door",
        Limits =
        [
            new("minutes", 3, "common practice, no source"),
        ],
        LeastData = "three minutes of the contact",
        OnAfter = TimeSpan.FromMinutes(3),
        OffAfter = TimeSpan.FromMinutes(5),
        Confounders = "forklift traffic",
        FirstCheck = new(
            "Go and look at the door.", "eyes", "at the door", 3,
            "it stands open"),
        Source = "door contact; step towards the hall without one (E.3, F16); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        if (known.Signals.Doors.Count == 0)
        {
            yield return known.About(Cause, [], ["no door of the zone has a contact; an open door shows only as a step towards the hall"]);
            yield break;
        }

        foreach (var door in known.Signals.Doors)
        {
            var (from, minutes) = RowMath.Longest(door.Row.Length, m => door.Row[m] > 0.5);
            var usual = known.Usually($"open/{door.Sensor.Id}", s => s.Doors.FirstOrDefault(d => d.Sensor.Id == door.Sensor.Id) is { } own ? RowMath.Longest(own.Row.Length, m => own.Row[m] > 0.5).Minutes : double.NaN);
            var limit = Math.Max(known.Limits.Of(Cause, "minutes"), usual.Learned ? 2 * usual.Median : 0);
            yield return known.About(Cause, [new($"{door.Sensor.Id} was open for {minutes} min on end (limit {limit:0} min)", Weight.Of(minutes, limit), $"{door.Sensor.Id} open")], [], minutes >= limit ? from : null)
                with { Sensor = door.Sensor.Id, Words = $"{door.Sensor.Id} left open" };
        }
    }
}
