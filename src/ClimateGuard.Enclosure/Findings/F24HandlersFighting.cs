namespace ClimateGuard.Enclosure;

/// <summary>F24: two air handlers work against each other.</summary>
public static class F24HandlersFighting
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F24",
        Name = "two air handlers fighting",
        Class = CauseClass.Control,
        Component = "control loop",
        Limits =
        [
            new("correlation", 0.6, "common practice, no source"),
        ],
        LeastData = "six hours",
        OnAfter = TimeSpan.FromMinutes(360),
        OffAfter = TimeSpan.FromMinutes(120),
        Confounders = "loads that really are opposite",
        FirstCheck = new(
            "Compare the set points and the sensors the two units follow.", "controller", "at both controllers", 10,
            "they follow different sensors or set points for one room"),
        Source = "correlation of the two commands; one heats while the other cools (E.3, F24); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        var own = known.Signals.Lead;
        if (own is null || known.Cell.Description.AirHandlers.Count < 2 || Fight.Net(own) is not { } net) yield break;
        foreach (var other in known.Cell.Description.AirHandlers.Where(a => a.Id != own.Handler.Id))
        {
            if (Fight.Net(new HandlerSignals(known.Cell, other, known.Signals.Frame)) is not { } against) continue;
            double Together(ZoneSignals s) => Fight.Together(known.Cell, s, other);
            var rho = Fight.Correlation(net, against);
            var usual = known.Usually($"fight/{other.Id}", Together);
            var (from, minutes) = RowMath.Longest(net.Length, m => net[m] * against[m] < 0 && Math.Min(Math.Abs(net[m]), Math.Abs(against[m])) > 0.05);
            yield return known.About(Cause,
            [
                new(FormattableString.Invariant($"one of {own.Handler.Id} and {other.Id} heats while the other cools for {minutes} min"), Math.Clamp(Weight.Of(minutes, 90), -1, 2), "opposite commands"),
                new(FormattableString.Invariant($"their commands move with a correlation of {rho:0.00} (usual {usual.Median:0.00})"), usual.Learned ? Weight.Of(usual.Median - rho, 1.3 * known.Limits.Of(Cause, "correlation")) : Weight.Of(-rho, known.Limits.Of(Cause, "correlation")), "opposite correlation"),
            ], [], minutes > 90 ? from : null) with { Words = $"{own.Handler.Id} and {other.Id} fight" };
        }
    }
}
