namespace ClimateGuard.Enclosure;

/// <summary>F10: the refrigerant charge is low.</summary>
public static class F10RefrigerantLow
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F10",
        Name = "refrigerant charge low",
        Class = CauseClass.Cooling,
        Component = "refrigerant",
        Limits =
        [
            new("capacityLoss", 0.2, "common practice, no source"),
        ],
        LeastData = "an hour of running compressor",
        OnAfter = TimeSpan.FromMinutes(120),
        OffAfter = TimeSpan.FromMinutes(720),
        Confounders = "a dirty condenser, the expansion valve, low air flow",
        FirstCheck = new(
            "Look at the sight glass; a certified person searches the leak.", "eyes", "at the liquid line", 5,
            "bubbles in the sight glass"),
        Source = "pull of the coil with the compressor running against other days (E.3, F10); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals.Handler.Medium is not Plant.CoolingMedium.DirectExpansion) yield break;
        var (share, loss, minutes) = Compressor.Share(known);
        if (minutes < 60 || double.IsNaN(share))
        {
            yield return known.About(Cause, [], ["the compressor ran for less than an hour in all, or no other day shows what it usually does"]);
            yield break;
        }

        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"with the compressor running the air is pulled down by {100 * share:0} % of what is usual"), Weight.Of(1 - share, known.Limits.Of(Cause, "capacityLoss")), "weak compressor"),
        };
        if (loss > F11CondenserFouled.NeutralLoss) evidence.Add(new("the loss grows with the outdoor temperature, as with a dirty condenser", -4, "loss when hot"));
        AirWay.Against(known, evidence);
        yield return known.About(Cause, evidence, ["suction and discharge pressure are not measured: superheat and sub-cooling would settle it"]);
    }
}
