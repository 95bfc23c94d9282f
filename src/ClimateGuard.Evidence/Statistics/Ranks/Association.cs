namespace ClimateGuard.Evidence;

/// <summary>How closely two lists go together.</summary>
public static class Association
{
    /// <summary>Pearson's r. Where one list has no spread there is no correlation; 0 is given.</summary>
    /// <param name="first">Two values or more, finite.</param>
    /// <param name="second">As many.</param>
    /// <returns>r, in [−1, 1].</returns>
    /// <exception cref="ArgumentException">The lists differ in length or hold fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double Pearson(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        Check(first, second);
        double meanFirst = Univariate.CentralMean(first), meanSecond = Univariate.CentralMean(second);
        var products = default(ExactSum);
        for (var i = 0; i < first.Count; i++) products.AddProduct(first[i] - meanFirst, second[i] - meanSecond);
        var squares = Univariate.SumOfSquares(first, meanFirst) * Univariate.SumOfSquares(second, meanSecond);
        return squares > 0 ? Math.Clamp(products.Value / Math.Sqrt(squares), -1, 1) : 0;
    }

    /// <summary>Spearman's rank correlation: Pearson's r of the ranks, ties shared.</summary>
    /// <param name="first">Two values or more, finite.</param>
    /// <param name="second">As many.</param>
    /// <returns>ρ, in [−1, 1].</returns>
    /// <exception cref="ArgumentException">The lists differ in length or hold fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double Spearman(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        Check(first, second);
        return Pearson(Ranking.Of(first), Ranking.Of(second));
    }

    /// <summary>Kendall's τ-b: agreeing minus disagreeing pairs, ties taken out of the scale.</summary>
    /// <param name="first">Two values or more, finite, at most 10 000.</param>
    /// <param name="second">As many.</param>
    /// <returns>τ, in [−1, 1].</returns>
    /// <exception cref="ArgumentException">The lists differ in length, or hold fewer than two values or more than 10 000.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double Kendall(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        Check(first, second);
        if (first.Count > 10_000) throw new ArgumentException($"Kendall's tau takes at most 10 000 pairs; given: {first.Count}.", nameof(first));
        long score = 0, apartFirst = 0, apartSecond = 0;
        for (var i = 0; i < first.Count; i++)
        {
            for (var j = i + 1; j < first.Count; j++)
            {
                int a = Math.Sign(first[j] - first[i]), b = Math.Sign(second[j] - second[i]);
                score += a * b;
                apartFirst += Math.Abs(a);
                apartSecond += Math.Abs(b);
            }
        }

        return apartFirst > 0 && apartSecond > 0 ? Math.Clamp(score / Math.Sqrt((double)apartFirst * apartSecond), -1, 1) : 0;
    }

    /// <summary>The correlation of two lists after what others explain of both is taken out.</summary>
    /// <remarks>r of the residuals of two regressions with intercept; t = r·√(ν/(1 − r²)) with ν = n − 2 − k for k others.</remarks>
    /// <param name="first">More values than others plus two, finite.</param>
    /// <param name="second">As many.</param>
    /// <param name="others">One list or more, each as long, none a combination of the rest.</param>
    /// <returns>r, its degrees of freedom and the two-sided p.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short, or the others depend on each other.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static CorrelationResult Partial(
        IReadOnlyList<double> first, IReadOnlyList<double> second, IReadOnlyList<IReadOnlyList<double>> others)
    {
        Check(first, second);
        ArgumentNullException.ThrowIfNull(others);
        var ofFirst = LinearRegression.Fit(others, first).Residuals;
        var ofSecond = LinearRegression.Fit(others, second).Residuals;
        var r = Pearson(ofFirst, ofSecond);
        var freedom = first.Count - 2 - others.Count;
        return new CorrelationResult(r, freedom, freedom > 0 ? Tail.Student(r * Math.Sqrt(freedom / (1 - (r * r))), freedom) : 1);
    }

    private static void Check(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        EvidenceInput.Sample(first, 2);
        EvidenceInput.Sample(second, 2);
        EvidenceInput.SameLength(first.Count, second.Count, nameof(first), nameof(second));
    }
}

/// <summary>A correlation with its test; equality is by value.</summary>
/// <param name="Correlation">r, in [−1, 1].</param>
/// <param name="DegreesOfFreedom">Of its t test; 0 when there is nothing left to test with.</param>
/// <param name="PValue">Two-sided, in [0, 1]; 1 without degrees of freedom.</param>
public sealed record CorrelationResult(double Correlation, int DegreesOfFreedom, double PValue);
