namespace ClimateGuard.Enclosure;

/// <summary>F32: a coolant or dielectric chiller does not hold its liquid.</summary>
public static class F32CoolantChiller
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F32",
        Name = "coolant chiller fault",
        Class = CauseClass.Load,
        Component = "coolant chiller",
        Limits =
        [
            new("riseKelvin", 1.0, "common practice, no source"),
            new("kelvinsPerHour", 2.0, "common practice, no source"),
        ],
        LeastData = "ten minutes",
        OnAfter = TimeSpan.FromMinutes(10),
        OffAfter = TimeSpan.FromMinutes(30),
        Confounders = "heavy roughing",
        FirstCheck = new(
            "Read the alarm of the machine's chiller; look at filter and tank level.", "eyes", "at the chiller of the machine", 5,
            "an alarm stands, or the tank is low"),
        Source = "liquid temperature against other days (E.3, F32); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        foreach (var liquid in known.Signals.Liquids)
        {
            double Level(ZoneSignals s) => s.Liquids.FirstOrDefault(p => p.Sensor.Id == liquid.Sensor.Id) is { } own ? Robust.Quantile(RowMath.Blocks(own.Row, 10), 0.98) : double.NaN;
            var name = $"liquid/{liquid.Sensor.Id}";
            var usual = known.Usually(name, Level);
            var rise = known.Number(name, Level) - (usual.Learned ? usual.Median : Robust.Quantile(liquid.Row, 0.25) + 0.5);
            var limit = known.Limits.Of(Cause, "riseKelvin") + (usual.Learned ? 2 * usual.Sigma : 0.5);
            yield return known.About(Cause,
                [new(FormattableString.Invariant($"{liquid.Sensor.Id} went {rise:+0.0;-0.0} K above what is usual (limit {limit:0.0} K)"), Weight.Of(rise, limit), $"{liquid.Sensor.Id} warm")],
                usual.Learned ? [] : [$"no other day shows the usual temperature of {liquid.Sensor.Id}"]) with { Machine = liquid.Sensor.Machine, Sensor = liquid.Sensor.Id, Words = $"chiller of {liquid.Sensor.Machine} does not hold" };
        }
    }
}
