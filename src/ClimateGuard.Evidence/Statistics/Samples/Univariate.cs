namespace ClimateGuard.Evidence;

/// <summary>Moments and robust measures of one sample.</summary>
public static class Univariate
{
    /// <summary>The factor that makes the median absolute deviation of normal values their standard deviation: 1/Φ⁻¹(0.75).</summary>
    public const double NormalConsistency = 1.482602218505602;

    /// <summary>The arithmetic mean, summed without loss.</summary>
    /// <param name="values">One value or more, finite.</param>
    /// <returns>The mean, in the unit of the values.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double Mean(IReadOnlyList<double> values)
    {
        EvidenceInput.Sample(values, 1);
        return CentralMean(values);
    }

    /// <summary>The sample standard deviation, divisor n − 1.</summary>
    /// <remarks>
    /// Two passes with the correction of Chan, Golub and LeVeque, The American Statistician 37 (1983) 242 (from memory); the one-pass
    /// textbook formula loses every digit on values such as 10000000.2.
    /// </remarks>
    /// <param name="values">Two values or more, finite.</param>
    /// <returns>s, in the unit of the values, 0 or more.</returns>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double StandardDeviation(IReadOnlyList<double> values)
    {
        EvidenceInput.Sample(values, 2);
        return Math.Sqrt(SumOfSquares(values, CentralMean(values)) / (values.Count - 1));
    }

    /// <summary>r₁ = Σ(yᵢ − m)(yᵢ₊₁ − m)/Σ(yᵢ − m)²: how much a value says about the next.</summary>
    /// <remarks>NIST/SEMATECH e-Handbook 1.3.5.12. A sample without any spread has no autocorrelation; 0 is given.</remarks>
    /// <param name="values">Two values or more in the order of time, finite.</param>
    /// <returns>r₁, in [−1, 1].</returns>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double LagOneAutocorrelation(IReadOnlyList<double> values)
    {
        EvidenceInput.Sample(values, 2);
        return Autocorrelation(values, CentralMean(values), 1);
    }

    /// <summary>Mean, standard deviation and lag-1 autocorrelation together.</summary>
    /// <param name="values">Two values or more in the order of time, finite.</param>
    /// <returns>The moments, in the unit of the values.</returns>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static SampleMoments Moments(IReadOnlyList<double> values)
    {
        EvidenceInput.Sample(values, 2);
        var mean = CentralMean(values);
        var squares = SumOfSquares(values, mean);
        return new SampleMoments(values.Count, mean, Math.Sqrt(squares / (values.Count - 1)), Autocorrelation(values, mean, 1));
    }

    /// <summary>The median.</summary>
    /// <param name="values">One value or more, finite.</param>
    /// <returns>The median, in the unit of the values.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double Median(IReadOnlyList<double> values) => Quantile.Of(values, 0.5);

    /// <summary>The median of the distances from the median; a spread that one wild value cannot move.</summary>
    /// <param name="values">One value or more, finite.</param>
    /// <param name="scaled">True multiplies by 1.4826, so that normal values give their standard deviation.</param>
    /// <returns>The deviation, in the unit of the values, 0 or more.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double MedianAbsoluteDeviation(IReadOnlyList<double> values, bool scaled = false)
    {
        var median = Median(values);
        var deviation = Median([.. values.Select(value => Math.Abs(value - median))]);
        return scaled ? NormalConsistency * deviation : deviation;
    }

    internal static double CentralMean(IReadOnlyList<double> values)
    {
        var first = ExactSum.Of(values) / values.Count;
        var rest = default(ExactSum);
        for (var i = 0; i < values.Count; i++) rest.Add(values[i] - first);
        return first + (rest.Value / values.Count);
    }

    internal static double SumOfSquares(IReadOnlyList<double> values, double mean)
    {
        ExactSum squares = default, distances = default;
        for (var i = 0; i < values.Count; i++)
        {
            var distance = values[i] - mean;
            squares.AddProduct(distance, distance);
            distances.Add(distance);
        }

        // What is left of the distances is the rounding of the mean itself.
        return Math.Max(0, squares.Value - (distances.Value * distances.Value / values.Count));
    }

    internal static double Autocorrelation(IReadOnlyList<double> values, double mean, int lag)
    {
        var squares = SumOfSquares(values, mean);
        if (squares == 0) return 0;
        var products = default(ExactSum);
        for (var i = 0; i + lag < values.Count; i++) products.AddProduct(values[i] - mean, values[i + lag] - mean);
        return products.Value / squares;
    }
}

/// <summary>What one sample says by its moments; equality is by value.</summary>
/// <param name="Count">How many values, two or more.</param>
/// <param name="Mean">The arithmetic mean, in the unit of the values.</param>
/// <param name="StandardDeviation">s with the divisor n − 1, in the unit of the values.</param>
/// <param name="LagOneAutocorrelation">r₁, in [−1, 1]; 0 where the values have no spread.</param>
public sealed record SampleMoments(int Count, double Mean, double StandardDeviation, double LagOneAutocorrelation);
