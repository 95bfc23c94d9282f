namespace ClimateGuard.Enclosure;

/// <summary>F20: warm air stays under the roof.</summary>
public static class F20Stratification
{
    /// <summary>The cause.</summary>
    public static FaultCause Cause { get; } = new()
    {
        Id = "F20",
        Name = "stratification",
        Class = CauseClass.AirFlow,
        Component = "air distribution",
        Limits =
        [
            new("kelvinsPerMetre", 0.5, "common practice, no source"),
        ],
        LeastData = "30 min of a high and a low sensor",
        OnAfter = TimeSpan.FromMinutes(30),
        OffAfter = TimeSpan.FromMinutes(60),
        Confounders = "low fan speed, a heated machine top",
        FirstCheck = new(
            "Look at the diffusers and the destratification fans.", "eyes", "under the roof", 8,
            "a fan stands, or the jets do not reach the floor"),
        Source = "vertical gradient (E.3, F20); common practice, no source",
    };

    internal static IEnumerable<Assessment> Judge(ZoneCase known)
    {
        var gradient = Gradient.Of(known.Signals);
        if (gradient is null)
        {
            yield return known.About(Cause, [], ["the zone has no air sensors at two heights 1 m apart"]);
            yield break;
        }

        var blocks = RowMath.Blocks(gradient, 30);
        var steepest = Robust.Quantile(blocks, 0.95);
        var limit = known.Limits.Of(Cause, "kelvinsPerMetre");
        yield return known.About(Cause,
            [new(FormattableString.Invariant($"{steepest:0.00} K per metre of height for 30 min (limit {limit:0.0} K/m)"), Weight.Of(steepest, limit), "gradient")], [],
            steepest >= limit ? 30 * Array.FindIndex(blocks, b => b >= limit) : null);
    }
}
