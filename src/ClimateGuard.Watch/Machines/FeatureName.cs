using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>What a feature is called in the shop.</summary>
public static class FeatureName
{
    // Holes of one circle differ by the rounding of their coordinates in the plant file.
    private const double SameRadiusMillimetres = 0.02;

    /// <summary>Such as <c>24 holes on ⌀900</c>, <c>bore 240 mm</c> or <c>pocket depth 30 mm</c>.</summary>
    public static string Of(Feature feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        return feature switch
        {
            PositionFeature position => Pattern(position),
            SizeFeature size => FormattableString.Invariant($"{Spaced(size.Id)} {size.NominalMillimetres:0.###} mm"),
            DepthFeature depth => FormattableString.Invariant($"{WithKind(depth.Id, "depth")} {depth.NominalMillimetres:0.###} mm"),
            DistanceFeature distance => FormattableString.Invariant($"{WithKind(distance.Id, "distance")} {distance.NominalMillimetres:0.###} mm"),
            _ => WithKind(feature.Id, feature.Kind),
        };
    }

    private static string Pattern(PositionFeature position)
    {
        var count = position.Points.Count;
        if (count < 2)
        {
            return $"{Spaced(position.Id)}: 1 hole";
        }

        var least = position.Points.Min(p => p.Radius);
        var most = position.Points.Max(p => p.Radius);
        return most - least <= SameRadiusMillimetres
            ? FormattableString.Invariant($"{count} holes on ⌀{Math.Round(least + most, 1):0.#}")
            : $"{count} holes, {Spaced(position.Id)}";
    }

    private static string WithKind(string id, string kind)
    {
        var words = Spaced(id);
        return words.Contains(kind, StringComparison.OrdinalIgnoreCase) ? words : $"{words} {kind}";
    }

    private static string Spaced(string id) => id.Replace('-', ' ').Replace('_', ' ');
}
