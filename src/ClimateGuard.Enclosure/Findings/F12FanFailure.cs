namespace ClimateGuard.Enclosure;

/// <summary>F12: no air moves although the unit is asked to cool.</summary>
public static class F12FanFailure
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F12",
        Name = "supply fan or belt failed",
        Class = CauseClass.AirFlow,
        Component = "supply fan",
        Limits =
        [
            new("minutes", 10, "common practice, no source"),
        ],
        LeastData = "ten minutes",
        OnAfter = TimeSpan.FromMinutes(10),
        OffAfter = TimeSpan.FromMinutes(30),
        Confounders = "a sensor in dead air reads well: look at the spread of the room",
        FirstCheck = new(
            "Look at the belt and feel for air at a diffuser.", "eyes, hand", "at the fan section", 4,
            "the belt is torn or the fan stands"),
        Source = "supply equals return while cooling is asked for; flow or status lost (E.3, F12); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals is not { Supply: { } supply, Return: { } back } || (known.Signals.Cooling ?? known.Signals.Heating) is null) yield break;
        double[]? flow = known.Signals.Of("airflow"), status = known.Signals.Of("fanStatus");
        bool Asked(int m) => known.Signals.Cooling is { } c && c[m] >= 0.2;
        var (usualStop, usualSame) = (known.Baseline.Usually("fan/stopped", AirWay.Stopped), known.Baseline.Usually("fan/same", AirWay.SupplyAsReturn));
        known.Number("fan/stopped", AirWay.Stopped);
        known.Number("fan/same", AirWay.SupplyAsReturn);
        var least = known.Limits.Of(Cause, "minutes");
        var limit = Math.Max(least, usualSame.Learned ? 2 * usualSame.Median : 0);
        var (from, minutes) = RowMath.Longest(supply.Length, m => AirWay.SameAsReturn(known.Signals, m));
        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"{minutes} min of cooling asked for with the supply air as warm as the return air (limit {limit:0} min)"), Against(Weight.Of(minutes, 1.5 * limit), known.Signals), "supply as return"),
        };
        if (flow is not null && known.Baseline.Usually("airflow/0.50", s => AirWay.Level(s, "airflow", 0.5)) is { Learned: true, Median: > 0 } usual)
        {
            var (start, lost) = RowMath.Longest(flow.Length, m => flow[m] < 0.15 * usual.Median && Asked(m));
            if (lost > 0) from = start;
            evidence.Add(new(FormattableString.Invariant($"{lost} min without air flow while cooling is asked for"), Weight.Of(lost, least), "no flow"));
        }

        if (status is not null)
        {
            var (start, stopped) = RowMath.Longest(status.Length, m => status[m] < 0.5 && Asked(m));
            if (stopped > 0) (from, minutes) = (start, stopped);
            evidence.Add(new(FormattableString.Invariant($"{stopped} min with the fan reported off while cooling is asked for"), stopped == 0 ? 0 : Weight.Of(stopped, Math.Max(least, usualStop.Learned ? 2 * usualStop.Median : 0)), "fan off"));
        }

        yield return known.About(Cause, evidence, flow is null ? ["the air flow is not measured"] : [], from >= 0 ? from : null);
    }

    // While the fan is reported off, supply and return are not compared, so that they do not agree speaks against nothing.
    private static double Against(double weight, HandlerSignals signals) => AirWay.Stopped(signals) > 0 ? Math.Max(0, weight) : weight;
}
