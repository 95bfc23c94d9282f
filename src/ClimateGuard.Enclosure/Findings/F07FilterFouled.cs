namespace ClimateGuard.Enclosure;

/// <summary>F07: the filter is loaded, less air flows.</summary>
public static class F07FilterFouled
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F07",
        Name = "filter loaded",
        Class = CauseClass.AirFlow,
        Component = "filter",
        Limits =
        [
            new("pressureRatio", 1.5, "common practice, no source"),
            new("flowLoss", 0.15, "common practice, no source"),
        ],
        LeastData = "three hours with the fan on",
        OnAfter = TimeSpan.FromMinutes(180),
        OffAfter = TimeSpan.FromMinutes(120),
        Confounders = "the fan slowed down on purpose (then the pressure falls too)",
        FirstCheck = new(
            "Read the filter pressure gauge and look at the filter.", "gauge, torch", "at the filter section", 3,
            "the pressure is more than one and a half times that of a clean filter"),
        Source = "filter pressure and air flow against other days (E.3, F07); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        double[]? pressure = known.Signals.Of("filterPressure"), flow = known.Signals.Of("airflow");
        if (pressure is null && flow is null)
        {
            yield return known.About(Cause, [], ["neither filter pressure nor air flow is measured, so a loaded filter cannot be told"]);
            yield break;
        }

        var evidence = new List<Evidence>();
        var missing = new List<string>();
        int? onset = null;
        var (ratio, from) = AirWay.Ratio(known, "filterPressure", 0.85);
        if (pressure is null) missing.Add("the filter pressure is not measured");
        else if (double.IsNaN(ratio)) missing.Add("no other day shows the usual filter pressure");
        else
        {
            var limit = known.Limits.Of(Cause, "pressureRatio");
            evidence.Add(new(FormattableString.Invariant($"the filter pressure is {ratio:0.00} times the usual one (limit {limit:0.0})"), Weight.Of(ratio - 1, limit - 1), "filter pressure"));
            onset = ratio >= limit ? from : null;
        }

        var (kept, _) = AirWay.Ratio(known, "airflow", 0.15);
        if (!double.IsNaN(kept))
        {
            var loss = Weight.Of(1 - kept, known.Limits.Of(Cause, "flowLoss"));
            evidence.Add(new(FormattableString.Invariant($"the air flow is {100 * kept:0} % of the usual one"), pressure is null ? loss * 0.8 : Math.Clamp(loss, -2, 1.5), "air flow"));
        }

        if (AirWay.SlowedDown(known)) evidence.Add(new("the fan runs slower than usual", -4, "fan speed"));
        yield return known.About(Cause, evidence, missing, onset);
    }
}
