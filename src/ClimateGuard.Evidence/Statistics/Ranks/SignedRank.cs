namespace ClimateGuard.Evidence;

/// <summary>The rank test of paired differences (Wilcoxon signed rank).</summary>
/// <remarks>
/// Wilcoxon, Biometrics Bulletin 1 (1945) 80 (from memory). Zero differences are left out. Exact up to 49 differences without ties or
/// zeros, as R does; else normal with the variance of tied ranks and, unless refused, a continuity correction of one half.
/// </remarks>
public static class SignedRank
{
    private const int ExactUpTo = 49;

    /// <summary>Tests whether differences tend to lie on one side of zero.</summary>
    /// <param name="differences">First minus second of each pair, finite; one that is not zero at least.</param>
    /// <param name="alternative">Greater: the differences tend to be positive.</param>
    /// <param name="exact">False takes the normal approximation even where counting is possible.</param>
    /// <param name="continuity">False leaves out the correction of one half in the normal approximation.</param>
    /// <returns>V, the rank sum of the positive differences, and its p.</returns>
    /// <exception cref="ArgumentException">There is no difference, or all are zero.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static RankTestResult Test(
        IReadOnlyList<double> differences, Alternative alternative = Alternative.TwoSided, bool exact = true, bool continuity = true)
    {
        EvidenceInput.Sample(differences, 1);
        double[] used = [.. differences.Where(difference => difference != 0)];
        if (used.Length == 0) throw new ArgumentException("All differences are zero; there is nothing to rank.", nameof(differences));
        double[] sizes = [.. used.Select(Math.Abs)];
        var ranks = Ranking.Of(sizes);
        var v = used.Zip(ranks, (difference, rank) => difference > 0 ? rank : 0).Sum();
        var ties = Ranking.TieTerm(sizes);
        var n = used.Length;
        if (exact && ties == 0 && n == differences.Count && n <= ExactUpTo)
            return new RankTestResult(v, RankCounts.PValue(RankCounts.OfSignedRanks(n), (int)v, alternative), true);

        var variance = (n * (n + 1.0) * ((2.0 * n) + 1) / 24) - (ties / 48);
        return new RankTestResult(v, MannWhitney.NormalP(v - (n * (n + 1.0) / 4), variance, alternative, continuity), false);
    }
}
