namespace ClimateGuard.Evidence;

/// <summary>The rank test of several independent samples.</summary>
public static class KruskalWallis
{
    /// <summary>H with the correction for ties, against χ² with one degree of freedom less than groups.</summary>
    /// <remarks>Kruskal and Wallis, Journal of the American Statistical Association 47 (1952) 583 (from memory).</remarks>
    /// <param name="groups">Two groups or more, each with one value or more.</param>
    /// <returns>H, its degrees of freedom and p; p is 1 where all values are equal.</returns>
    /// <exception cref="ArgumentException">There are fewer than two groups, or a group is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static ChiSquareResult Test(IReadOnlyList<IReadOnlyList<double>> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        if (groups.Count < 2) throw new ArgumentException($"Two groups or more are compared; given: {groups.Count}.", nameof(groups));
        foreach (var group in groups) EvidenceInput.Sample(group, 1, nameof(groups));
        double[] all = [.. groups.SelectMany(group => group)];
        var ranks = Ranking.Of(all);
        double n = all.Length, sum = 0;
        var start = 0;
        foreach (var group in groups)
        {
            var rankSum = ranks.Skip(start).Take(group.Count).Sum();
            sum += rankSum * rankSum / group.Count;
            start += group.Count;
        }

        var untied = 1 - (Ranking.TieTerm(all) / ((n * n * n) - n));
        var h = untied > 0 ? ((12 / (n * (n + 1)) * sum) - (3 * (n + 1))) / untied : 0;
        return new ChiSquareResult(h, groups.Count - 1, Tail.ChiSquare(h, groups.Count - 1));
    }
}

/// <summary>A statistic that follows χ² without effect; equality is by value.</summary>
/// <param name="Statistic">0 or more.</param>
/// <param name="DegreesOfFreedom">One or more.</param>
/// <param name="PValue">P(χ² at or above the statistic), in [0, 1].</param>
public sealed record ChiSquareResult(double Statistic, int DegreesOfFreedom, double PValue);
