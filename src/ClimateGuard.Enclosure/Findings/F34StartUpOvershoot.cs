namespace ClimateGuard.Enclosure;

/// <summary>F34: the room overshoots after a start.</summary>
public static class F34StartUpOvershoot
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F34",
        Name = "overshoot at start-up",
        Class = CauseClass.Control,
        Component = "control loop",
        Limits =
        [
            new("overshootKelvin", 0.4, "common practice, no source"),
            new("settleMinutes", 45, "common practice, no source"),
        ],
        LeastData = "one start with the fan on before and after; three mornings to be sure",
        OnAfter = TimeSpan.FromMinutes(60),
        OffAfter = TimeSpan.FromMinutes(1440),
        Confounders = "the size of the set-back",
        FirstCheck = new(
            "Look for an integral limit (anti-windup) in the controller.", "controller", "at the controller", 10,
            "the integral term stands at its limit before the room is back"),
        Source = "overshoot and settling after a start (E.3, F34); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Error is not { } error) yield break;
        double Usual(HandlerSignals s) => known.Zone is null ? double.NaN : StartUp.Overshoot(s, known.Zone.Zone.Setpoint.Value);
        var (overshoot, settle, at) = StartUp.Largest(error, known.Signals);
        known.Number("startup", Usual);
        var usual = known.Baseline.Usually("startup", Usual);
        if (at < 0)
        {
            yield return known.About(Cause, [], ["no start of the fan from more than 0.5 K off the set point was seen"]);
            yield break;
        }

        var limit = Math.Max(known.Limits.Of(Cause, "overshootKelvin"), usual.Learned ? usual.Median + 0.4 + (2 * usual.Sigma) : 0);
        var longest = known.Limits.Of(Cause, "settleMinutes");
        yield return known.About(Cause,
        [
            new(FormattableString.Invariant($"after a start the room went {overshoot:0.0} K past its set point (limit {limit:0.0} K)"), Weight.Of(overshoot, limit), "overshoot"),
            new($"it took {settle} min to settle (limit {longest:0} min)", Math.Clamp(3 * ((settle / longest) - 1), -4, 1.5), "settling"),
        ], ["one start only: three mornings would make it sure"], overshoot >= limit ? at : null);
    }
}
