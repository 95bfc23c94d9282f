namespace ClimateGuard.Evidence;

/// <summary>Ranks with ties shared, and the sizes of the ties.</summary>
internal static class Ranking
{
    /// <summary>Rank 1 is the smallest; equal values share the mean of their ranks.</summary>
    public static double[] Of(IReadOnlyList<double> values)
    {
        var order = Enumerable.Range(0, values.Count).ToArray();
        Array.Sort(order, (a, b) => values[a].CompareTo(values[b]));
        var ranks = new double[values.Count];
        for (var start = 0; start < order.Length;)
        {
            var end = start + 1;
            while (end < order.Length && values[order[end]] == values[order[start]]) end++;
            for (var i = start; i < end; i++) ranks[order[i]] = (start + 1 + end) / 2.0;
            start = end;
        }

        return ranks;
    }

    /// <summary>How many values share each value.</summary>
    public static IReadOnlyList<int> TieSizes(IEnumerable<double> values) => [.. values.GroupBy(value => value).Select(tie => tie.Count())];

    /// <summary>Σ(t³ − t) over the ties.</summary>
    public static double TieTerm(IEnumerable<double> values) => TieSizes(values).Sum(t => ((double)t * t * t) - t);
}
