namespace ClimateGuard.Enclosure;

/// <summary>F22: the set point was moved or the set-back stayed on.</summary>
public static class F22SetPointMoved
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F22",
        Name = "set point moved or set-back left on",
        Class = CauseClass.Control,
        Component = "set point",
        Limits =
        [
            new("changeKelvin", 0.3, "common practice, no source"),
        ],
        LeastData = "two hours",
        LeastSpan = TimeSpan.FromHours(4),
        OnAfter = TimeSpan.FromMinutes(120),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "summer and winter programmes",
        FirstCheck = new(
            "Read the set point and the schedule, and ask who changed them.", "controller", "at the controller", 4,
            "the set point is not the agreed one"),
        Source = "change of the set point; plateau of the room at unchanged control quality (E.3, F22); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        if (known.Signals.Mean is null) yield break;
        var evidence = new List<Evidence>();
        var limit = known.Limits.Of(Cause, "changeKelvin");
        var stated = SetPoint.Change(known);
        if (!double.IsNaN(stated))
            evidence.Add(new(FormattableString.Invariant($"the set point stood {stated:+0.0;-0.0} K beside that of other days for two hours"), Weight.Of(Math.Abs(stated), limit), "set point"));
        var (shift, from) = SetPoint.Plateau(known);
        evidence.Add(new(FormattableString.Invariant($"the room was kept {shift:+0.0;-0.0} K beside its set point, steadily and with room left to control"), double.IsNaN(stated) ? Weight.Of(Math.Abs(shift), limit) * 0.9 : Math.Clamp(Weight.Of(Math.Abs(shift), limit), -1, 1), "plateau"));
        yield return known.About(Cause, evidence, double.IsNaN(stated) ? ["the set point is not among the signals"] : [], from >= 0 ? from : null);
    }
}
