using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>A feature in shop language.</summary>
public static class FeatureWords
{
    /// <summary>Such as <c>24 holes on ⌀900 (holes)</c>, <c>groove ⌀690</c> or <c>pocket, depth 30</c>.</summary>
    public static string Of(Feature feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        return feature switch
        {
            PositionFeature position => $"{feature.Id}: {Holes(position)}",
            SizeFeature size => FormattableString.Invariant($"{feature.Id}: ⌀{size.NominalMillimetres:0.###}"),
            DepthFeature depth => FormattableString.Invariant($"{feature.Id}: depth {depth.NominalMillimetres:0.###}"),
            DistanceFeature distance => FormattableString.Invariant($"{feature.Id}: distance {distance.NominalMillimetres:0.###}"),
            CoaxialityFeature => $"{feature.Id}: coaxiality over the half-turn",
            _ => feature.Id,
        };
    }

    private static string Holes(PositionFeature position)
    {
        var count = position.Points.Count;
        var noun = count == 1 ? "hole" : "holes";
        var radius = position.Points.Max(p => p.Radius);
        var onCircle = position.Points.All(p => Math.Abs(p.Radius - radius) < 1e-3 * radius);
        return onCircle
            ? FormattableString.Invariant($"{count} {noun} on ⌀{2 * radius:0.#}")
            : FormattableString.Invariant($"{count} {noun} up to {radius:0} mm from the datum");
    }
}
