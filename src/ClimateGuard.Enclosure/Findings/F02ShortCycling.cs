namespace ClimateGuard.Enclosure;

/// <summary>F02: the compressor starts too often or runs too short.</summary>
public static class F02ShortCycling
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F02",
        Name = "short cycling of the compressor",
        Class = CauseClass.Control,
        Component = "compressor",
        Limits =
        [
            new("startsPerHour", 6, "6 per hour, from memory; a scroll-compressor maker allows 12"),
            new("runMinutes", 4, "common practice, no source"),
        ],
        LeastData = "two hours with starts",
        OnAfter = TimeSpan.FromMinutes(120),
        OffAfter = TimeSpan.FromMinutes(120),
        Confounders = "low load, an oversized compressor",
        FirstCheck = new(
            "Read the differential of the thermostat and the low-pressure cut-out.", "gauge set, controller", "at the compressor", 10,
            "the cut-out opens while the room still calls"),
        Source = "starts per hour and running time; field rules of published-checks 11.4",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        var row = known.Signals.Of("compressor") ?? (known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion ? known.Signals.Cooling : null);
        if (row is null)
        {
            if (known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion)
                yield return known.About(Cause, [], ["neither compressor nor cooling command is known, so starts cannot be counted"]);
            yield break;
        }

        var (starts, run) = Commands.Starts(row, 120);
        double Busiest(HandlerSignals s) => (s.Of("compressor") ?? s.Cooling) is { } own ? Commands.Starts(own, 120).PerHour : double.NaN;
        var usual = known.Baseline.Usually("compressor/starts", Busiest);
        known.Number("compressor/starts", Busiest);
        var limit = Math.Max(known.Limits.Of(Cause, "startsPerHour"), usual.Learned ? 1.3 * (usual.Median + (2 * usual.Sigma)) : 0);
        var least = known.Limits.Of(Cause, "runMinutes");
        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"{starts:0.0} starts an hour in the busiest two hours (limit {limit:0})"), Weight.Of(starts, limit), "compressor starts"),
        };
        if (run > 0 && starts > 2)
            evidence.Add(new(FormattableString.Invariant($"it runs {run:0} min at a time (limit {least:0} min)"), Math.Clamp(8 * ((least / run) - 0.9), -5, 4), "compressor run"));
        yield return known.About(Cause, evidence, []);
    }
}
