namespace ClimateGuard.Enclosure;

/// <summary>F08: the coil passes less heat than it did.</summary>
public static class F08CoilFouled
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F08",
        Name = "cooling coil fouled or iced",
        Class = CauseClass.Cooling,
        Component = "cooling coil",
        Limits =
        [
            new("capacityLoss", 0.15, "common practice, no source"),
        ],
        LeastData = "three hours with the valve open by 30 % or more",
        OnAfter = TimeSpan.FromMinutes(180),
        OffAfter = TimeSpan.FromMinutes(240),
        Confounders = "warm chilled water, low air flow, a leaking or stuck valve",
        FirstCheck = new(
            "Look at the coil face; measure its pressure drop.", "torch, gauge", "at the coil", 10,
            "dirt or ice on the fins"),
        Source = "pull of the coil at equal command against other days (E.3, F08); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(HandlerCase known)
    {
        if (known.Signals.Handler.Medium is Plant.CoolingMedium.DirectExpansion || known.Signals.Cooling is null) yield break;
        var (share, minutes) = Coil.Share(known);
        if (minutes < 180)
        {
            yield return known.About(Cause, [], ["the valve was open by 30 % or more for less than three hours, or no other day shows what the coil usually does then"]);
            yield break;
        }

        var limit = known.Limits.Of(Cause, "capacityLoss");
        var evidence = new List<Evidence>
        {
            new(FormattableString.Invariant($"the coil pulls the air down by {100 * share:0} % of what is usual at the same command (limit {100 * (1 - limit):0} %)"), Weight.Of(1 - share, 1.2 * limit, known.Signals.Handler.OutdoorAir ? 0.5 : 1), "weak coil"),
        };
        Water.Against(known, evidence);
        AirWay.Against(known, evidence);
        Coil.FlatAgainst(known, evidence);
        if (share < Coil.LeastShareOfDirty) evidence.Add(new("a loss so large comes from the water rather than from dirt", -4, "weak coil by nearly half"));
        yield return known.About(Cause, evidence, known.Signals.Handler.OutdoorAir ? ["the humidity of the entering air is not measured: how much of the cooling dries the air is not known"] : []);
    }
}
