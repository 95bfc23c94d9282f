namespace ClimateGuard.Evidence;

/// <summary>Looks whether what is left without temperature differs by shift, operator, tool, program, device or batch.</summary>
internal static class GroupDifferences
{
    // Looked at beside the one question of the physics, so it must stand out clearly.
    private const double Level = 0.01;

    public static IReadOnlyList<GroupDifference> Of(IReadOnlyList<GroupPoint> points, IReadOnlyList<string> names)
    {
        string[] known = [.. names.Where(name => points.All(point => point.Labels.ContainsKey(name)) && Groups(points, name).Count(group => group.Length > 1) > 1)];
        return
        [
            .. known.Select(name => Difference(points, name, known.Length)).OfType<GroupDifference>(),
        ];
    }

    private static GroupDifference? Difference(IReadOnlyList<GroupPoint> points, string name, int looks)
    {
        double[][] groups = [.. Groups(points, name).Select(group => group.Select(Rest).ToArray())];
        if (groups.SelectMany(group => group).Distinct().Count() < 2) return null;
        var p = Math.Min(1, AnalysisOfVariance.OneWay(groups).PValue * looks);
        return p < Level
            ? new GroupDifference(name, p, Groups(points, name).ToDictionary(group => group[0].Labels[name], group => group.Average(Rest) - points.Except(group).Average(Rest), StringComparer.Ordinal))
            : null;
    }

    private static GroupPoint[][] Groups(IReadOnlyList<GroupPoint> points, string name) => [.. points.GroupBy(point => point.Labels[name], StringComparer.Ordinal).Select(group => group.ToArray())];

    private static double Rest(GroupPoint point) => point.Measured - point.Predicted;
}
