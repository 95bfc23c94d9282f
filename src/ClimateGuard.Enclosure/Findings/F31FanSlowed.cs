namespace ClimateGuard.Enclosure;

/// <summary>F31: the fan runs slower than it should.</summary>
public static class F31FanSlowed
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F31",
        Name = "fan speed reduced",
        Class = CauseClass.AirFlow,
        Component = "supply fan",
        Limits =
        [
            new("loss", 0.2, "common practice, no source"),
        ],
        LeastData = "30 min",
        OnAfter = TimeSpan.FromMinutes(30),
        OffAfter = TimeSpan.FromMinutes(30),
        Confounders = "ventilation on demand",
        FirstCheck = new(
            "Read the speed and the schedule of the fan drive.", "drive display", "at the fan drive", 5,
            "a speed limit or an energy mode is on"),
        Source = "fan speed and air flow against other days (E.3, F31); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        var (speed, from) = AirWay.Ratio(known, "fanSpeed", 0.15);
        if (double.IsNaN(speed))
        {
            yield return known.About(Cause, [], [known.Signals.FanSpeed is null ? "the fan speed is not known" : "no other day shows the usual fan speed"]);
            yield break;
        }

        var limit = known.Limits.Of(Cause, "loss");
        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"the fan runs at {100 * speed:0} % of its usual speed (limit {100 * (1 - limit):0} %)"), Weight.Of(1 - speed, limit), "fan speed"),
        };
        var spread = known.Baseline.Usually("fanSpeed/spread", s => AirWay.Level(s, "fanSpeed", 0.95) - AirWay.Level(s, "fanSpeed", 0.05));
        if (spread.Median > 0.1) evidence.Add(new("its speed moves on other days too", -6, "speed moves"));
        yield return known.About(Cause, evidence, [], 1 - speed >= limit ? from : null);
    }
}
