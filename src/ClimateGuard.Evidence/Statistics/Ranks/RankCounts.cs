namespace ClimateGuard.Evidence;

/// <summary>How many arrangements of ranks give each value of a rank statistic, as shares of all.</summary>
internal static class RankCounts
{
    /// <summary>W from 0 to m·n of the rank sum of m among m + n.</summary>
    public static double[] OfRankSum(int m, int n)
    {
        // ways[k][w]: choices of k of the ranks seen so far with W = w. Only sums of positive counts, so no digit is lost to differences.
        var top = m * n;
        var ways = new double[m + 1][];
        for (var k = 0; k <= m; k++) ways[k] = new double[top + 1];
        ways[0][0] = 1;
        for (var rank = 1; rank <= m + n; rank++)
        {
            for (var k = Math.Min(m, rank); k >= 1; k--)
            {
                // The k-th smallest of the first sample at this rank has rank − k of the other sample below it.
                var below = rank - k;
                for (var w = below; w <= top; w++) ways[k][w] += ways[k - 1][w - below];
            }
        }

        return Normalised(ways[m]);
    }

    /// <summary>V from 0 to n(n + 1)/2 of the signed ranks.</summary>
    public static double[] OfSignedRanks(int n)
    {
        var top = n * (n + 1) / 2;
        var counts = new double[top + 1];
        counts[0] = 1;
        for (var rank = 1; rank <= n; rank++)
        {
            for (var v = top; v >= rank; v--) counts[v] += counts[v - rank];
        }

        return Normalised(counts);
    }

    public static double PValue(double[] shares, int statistic, Alternative alternative)
    {
        var less = shares.Take(statistic + 1).Sum();
        var greater = shares.Skip(statistic).Sum();
        return Math.Min(1, alternative switch
        {
            Alternative.Less => less,
            Alternative.Greater => greater,
            _ => 2 * Math.Min(less, greater),
        });
    }

    private static double[] Normalised(double[] counts)
    {
        var total = counts.Sum();
        return [.. counts.Select(count => count / total)];
    }
}
