namespace ClimateGuard.Enclosure;

/// <summary>F11: the condenser gives off too little heat.</summary>
public static class F11CondenserFouled
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F11",
        Name = "condenser fouled",
        Class = CauseClass.Cooling,
        Component = "condenser",
        Limits =
        [
            new("capacityLoss", 0.15, "common practice, no source"),
        ],
        LeastData = "an hour of running compressor, outdoor air moving by 4 K",
        OnAfter = TimeSpan.FromMinutes(120),
        OffAfter = TimeSpan.FromMinutes(720),
        Confounders = "a heat wave",
        FirstCheck = new(
            "Look at the condenser face and its fan.", "torch", "outdoors, at the condenser", 8,
            "dirt on the fins, or the fan stands"),
        Source = "loss that grows with the outdoor temperature (E.3, F11); common practice, no source",
    };

    /// <summary>More loss per kelvin outdoors speaks for a dirty condenser; a clean one loses about 1 % (common practice, no source).</summary>
    internal const double NeutralLoss = 0.014;

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals.Handler.Medium is not Plant.CoolingMedium.DirectExpansion) yield break;
        var (share, loss, minutes) = Compressor.Share(known);
        if (minutes < 60 || double.IsNaN(share) || double.IsNaN(loss))
        {
            yield return known.About(Cause, [], ["too little running time, no other days, or the outdoor temperature moved by less than 4 K or is not known"]);
            yield break;
        }

        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"with the compressor running the air is pulled down by {100 * share:0} % of what is usual"), Math.Min(4, Weight.Of(1 - share, known.Limits.Of(Cause, "capacityLoss"))), "weak compressor"),
            new(FormattableString.Invariant($"per kelvin outdoors {100 * loss:0.0} % more of the pull are lost than usual"), Math.Clamp(600 * (loss - NeutralLoss), -4, 6), "loss when hot"),
        };
        AirWay.Against(known, evidence);
        yield return known.About(Cause, evidence, []);
    }
}
