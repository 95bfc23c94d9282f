namespace ClimateGuard.Evidence;

/// <summary>Trends that a few wild values cannot make or hide.</summary>
public static class Trend
{
    private const int MostValues = 10_000;

    /// <summary>The Theil–Sen slope: the median of the slopes of all pairs with different times.</summary>
    /// <remarks>Sen, Journal of the American Statistical Association 63 (1968) 1379 (from memory).</remarks>
    /// <param name="times">When, in any unit; at least two different ones, at most 10 000.</param>
    /// <param name="values">What, as many as times.</param>
    /// <returns>The slope, in units of value per unit of time.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, hold fewer than two values or more than 10 000, or all times are equal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double TheilSenSlope(IReadOnlyList<double> times, IReadOnlyList<double> values)
    {
        EvidenceInput.Sample(times, 2);
        EvidenceInput.Sample(values, 2);
        EvidenceInput.SameLength(times.Count, values.Count, nameof(times), nameof(values));
        CheckSize(values.Count);
        var slopes = new List<double>(values.Count * (values.Count - 1) / 2);
        for (var i = 0; i < values.Count; i++)
        {
            for (var j = i + 1; j < values.Count; j++)
            {
                if (times[i] != times[j]) slopes.Add((values[j] - values[i]) / (times[j] - times[i]));
            }
        }

        if (slopes.Count == 0) throw new ArgumentException("All times are equal, so there is no slope.", nameof(times));
        return Univariate.Median(slopes);
    }

    /// <summary>The Mann–Kendall test for a steady rise or fall.</summary>
    /// <remarks>
    /// S counts rising minus falling pairs; its variance is n(n−1)(2n+5)/18 less the terms of ties; Z uses S moved one towards zero
    /// (Kendall, Rank Correlation Methods, from memory). It assumes independent values: autocorrelated ones make p too small.
    /// </remarks>
    /// <param name="values">Three values or more in the order of time, at most 10 000.</param>
    /// <returns>S, its variance, Z and the two-sided p; p is 1 where all values are equal.</returns>
    /// <exception cref="ArgumentException">There are fewer than three values, or more than 10 000.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static MannKendallResult MannKendall(IReadOnlyList<double> values)
    {
        EvidenceInput.Sample(values, 3);
        CheckSize(values.Count);
        long score = 0;
        for (var i = 0; i < values.Count; i++)
        {
            for (var j = i + 1; j < values.Count; j++) score += Math.Sign(values[j] - values[i]);
        }

        double n = values.Count;
        var eighteenths = n * (n - 1) * ((2 * n) + 5);
        foreach (double t in Ranking.TieSizes(values)) eighteenths -= t * (t - 1) * ((2 * t) + 5);
        var variance = eighteenths / 18;
        var z = variance > 0 ? (score - Math.Sign(score)) / Math.Sqrt(variance) : 0;
        return new MannKendallResult(score, variance, z, Tail.Normal(z, Alternative.TwoSided));
    }

    private static void CheckSize(int count)
    {
        if (count > MostValues)
            throw new ArgumentException($"A trend over all pairs takes at most {MostValues} values; given: {count}. Average them first.");
    }
}

/// <summary>What the Mann–Kendall test found; equality is by value.</summary>
/// <param name="Score">S, rising minus falling pairs.</param>
/// <param name="Variance">Of S without trend, with ties.</param>
/// <param name="Z">The standardised score.</param>
/// <param name="PValue">Two-sided, in [0, 1].</param>
public sealed record MannKendallResult(long Score, double Variance, double Z, double PValue);
