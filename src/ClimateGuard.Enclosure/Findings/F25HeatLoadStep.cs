namespace ClimateGuard.Enclosure;

/// <summary>F25: a machine gives off more heat than it did.</summary>
public static class F25HeatLoadStep
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F25",
        Name = "heat load of a machine stepped up",
        Class = CauseClass.Load,
        Component = "machine",
        Limits =
        [
            new("kilowatts", 5, "common practice, no source"),
        ],
        LeastData = "30 min of its power",
        OnAfter = TimeSpan.FromMinutes(30),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "the start of all machines in the morning",
        FirstCheck = new(
            "Ask what runs on that machine and for how long.", "question", "at the machine", 5,
            "a heavier job or an idle machine at full power"),
        Source = "step of machine power against other days (E.3, F25); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        if (known.Signals.Powers.Count == 0)
        {
            if (known.Cell.Machines.Any(m => m.Zone == known.Signals.Zone.Id)) yield return known.About(Cause, [], ["no machine of the zone reports its power"]);
            yield break;
        }

        foreach (var power in known.Signals.Powers)
        {
            double Level(ZoneSignals s) => s.Powers.FirstOrDefault(p => p.Sensor.Id == power.Sensor.Id) is { } own ? Robust.Quantile(RowMath.Blocks(own.Row, 30), 0.9) : double.NaN;
            var name = $"power/{power.Sensor.Id}";
            var usual = known.Usually(name, Level);
            if (!usual.Learned) continue;
            var step = known.Number(name, Level) - usual.Median;
            var limit = known.Limits.Of(Cause, "kilowatts");
            yield return known.About(Cause,
                [new(FormattableString.Invariant($"{power.Sensor.Machine} takes {step:+0.0;-0.0} kW against other days (limit {limit:0} kW)"), Weight.Of(step, limit), $"{power.Sensor.Id} power")], [])
                with { Machine = power.Sensor.Machine, Words = $"heat of {power.Sensor.Machine} stepped up" };
        }
    }
}
