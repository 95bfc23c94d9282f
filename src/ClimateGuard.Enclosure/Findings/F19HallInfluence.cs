namespace ClimateGuard.Enclosure;

/// <summary>F19: the hall drives the zone.</summary>
public static class F19HallInfluence
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F19",
        Name = "the hall drives the zone",
        Class = CauseClass.Envelope,
        Component = "envelope",
        Limits =
        [
            new("slope", 0.15, "common practice, no source"),
        ],
        LeastData = "a day in which the hall moves by 3 K; seven to be sure",
        OnAfter = TimeSpan.FromMinutes(1440),
        OffAfter = TimeSpan.FromMinutes(1440),
        Confounders = "a common schedule of hall, load and room",
        FirstCheck = new(
            "Compare wall insulation and capacity with the design.", "drawings", "at the desk", 30,
            "walls or capacity are less than designed"),
        Source = "slope of room over hall (E.3, F19); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        var (slope, share) = WallHeat.RoomOverHall(known.Signals);
        if (double.IsNaN(slope))
        {
            yield return known.About(Cause, [], [known.Signals.Hall is null ? "the hall is not measured" : "the hall moved by less than 3 K"]);
            yield break;
        }

        var usual = known.Usually("hall", s => WallHeat.RoomOverHall(s).Slope);
        var limit = known.Limits.Of(Cause, "slope") + (usual.Learned ? Math.Max(0, usual.Median) : 0);
        List<Evidence> evidence =
        [
            new(FormattableString.Invariant($"the room follows the hall by {slope:0.00} K per kelvin (limit {limit:0.00})"), Weight.Of(slope, limit), "room follows hall"),
            new(FormattableString.Invariant($"the hall explains {100 * share:0} % of the movement of the room"), Math.Clamp(15 * (share - 0.7), -7, 1.5), "hall explains"),
        ];
        Coil.FlatAgainst(known.Lead, evidence);
        yield return known.About(Cause, evidence, ["one day only: seven would make it sure"]);
    }
}
