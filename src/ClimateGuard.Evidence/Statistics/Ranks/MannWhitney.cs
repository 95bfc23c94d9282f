namespace ClimateGuard.Evidence;

/// <summary>The rank test of two independent samples (Mann–Whitney, Wilcoxon rank sum).</summary>
/// <remarks>
/// Mann and Whitney, Annals of Mathematical Statistics 18 (1947) 50 (from memory). Exact up to 49 values a side without ties, as R
/// does; else normal with the variance of tied ranks and, unless refused, a continuity correction of one half.
/// </remarks>
public static class MannWhitney
{
    private const int ExactUpTo = 49;

    /// <summary>Tests whether the first sample tends to be larger or smaller than the second.</summary>
    /// <param name="first">One value or more, finite.</param>
    /// <param name="second">One value or more, finite.</param>
    /// <param name="alternative">Greater: the first tends to be larger.</param>
    /// <param name="exact">False takes the normal approximation even where counting is possible.</param>
    /// <param name="continuity">False leaves out the correction of one half in the normal approximation.</param>
    /// <returns>W and its p; p is 1 where all values are equal.</returns>
    /// <exception cref="ArgumentException">A sample is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static RankTestResult Test(
        IReadOnlyList<double> first,
        IReadOnlyList<double> second,
        Alternative alternative = Alternative.TwoSided,
        bool exact = true,
        bool continuity = true)
    {
        EvidenceInput.Sample(first, 1);
        EvidenceInput.Sample(second, 1);
        double[] all = [.. first, .. second];
        var (m, n) = (first.Count, second.Count);
        var w = Ranking.Of(all).Take(m).Sum() - (m * (m + 1.0) / 2);
        var ties = Ranking.TieTerm(all);
        if (exact && ties == 0 && m <= ExactUpTo && n <= ExactUpTo)
            return new RankTestResult(w, RankCounts.PValue(RankCounts.OfRankSum(m, n), (int)w, alternative), true);

        double total = m + n;
        var variance = m * n / 12.0 * (total + 1 - (ties / (total * (total - 1))));
        return new RankTestResult(w, NormalP(w - (m * n / 2.0), variance, alternative, continuity), false);
    }

    internal static double NormalP(double distance, double variance, Alternative alternative, bool continuity)
    {
        if (!(variance > 0)) return 1;
        var correction = continuity
            ? alternative switch
            {
                Alternative.Greater => 0.5,
                Alternative.Less => -0.5,
                _ => Math.Sign(distance) * 0.5,
            }
            : 0;
        return Tail.Normal((distance - correction) / Math.Sqrt(variance), alternative);
    }
}
