using ClimateGuard.Plant;

namespace ClimateGuard.Thermal;

/// <summary>The corners of the convex hull of a pattern: |eps·r + D| is convex in r, so the worst hole is always one of them.</summary>
internal static class OutermostPoints
{
    /// <summary>The hull corners (Andrew 1979), or all points when there are fewer than three. The farthest from the datum comes first.</summary>
    public static IReadOnlyList<PatternPoint> Of(IReadOnlyList<PatternPoint> points)
    {
        var sorted = points.Distinct().OrderBy(p => p.X).ThenBy(p => p.Y).ToArray();
        var hull = sorted.Length < 3 ? sorted : [.. Chain(sorted), .. Chain([.. sorted.Reverse()])];
        return [.. hull.OrderByDescending(p => p.Radius)];
    }

    /// <summary>One side of the hull, from the first point to the one before the last.</summary>
    private static List<PatternPoint> Chain(IReadOnlyList<PatternPoint> points)
    {
        var chain = new List<PatternPoint>();
        foreach (var point in points)
        {
            while (chain.Count >= 2 && Turn(chain[^2], chain[^1], point) <= 0)
            {
                chain.RemoveAt(chain.Count - 1);
            }

            chain.Add(point);
        }

        chain.RemoveAt(chain.Count - 1);
        return chain;
    }

    private static double Turn(PatternPoint a, PatternPoint b, PatternPoint c) =>
        ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
}
