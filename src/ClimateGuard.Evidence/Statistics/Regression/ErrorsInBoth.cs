using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Lines through points that err in x as well as in y; an ordinary regression would make the slope too small.</summary>
public static class ErrorsInBoth
{
    private const int MostRounds = 500;

    /// <summary>λ = var(x)/(var(x) + u²(x)): the factor by which an ordinary regression shrinks the slope.</summary>
    /// <remarks>Fuller, Measurement Error Models, 1987 (from memory).</remarks>
    /// <param name="varianceOfTruth">var(x) of the true predictions, in the square of their unit, above 0.</param>
    /// <param name="varianceOfError">u²(x), mean squared uncertainty of the predictions, 0 or more.</param>
    /// <returns>λ, in (0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Attenuation(double varianceOfTruth, double varianceOfError) =>
        EvidenceInput.Positive(varianceOfTruth) / (varianceOfTruth + EvidenceInput.NotNegative(varianceOfError));

    /// <summary>Deming's line: all points err alike, and the ratio of the two error variances is known.</summary>
    /// <remarks>
    /// Deming, Statistical Adjustment of Data, 1943 (from memory). Standard errors by leaving out one point at a time (jackknife), as the
    /// clinical laboratory standard does; they need no assumption about the spread.
    /// </remarks>
    /// <param name="x">Four values or more, finite.</param>
    /// <param name="y">As many.</param>
    /// <param name="varianceRatio">u²(y)/u²(x), above 0.</param>
    /// <returns>Intercept and slope with n − 2 degrees of freedom.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short, or x and y do not vary together.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static LineFit Deming(IReadOnlyList<double> x, IReadOnlyList<double> y, double varianceRatio = 1)
    {
        EvidenceInput.Sample(x, 4);
        EvidenceInput.Sample(y, 4);
        EvidenceInput.SameLength(x.Count, y.Count, nameof(x), nameof(y));
        EvidenceInput.Positive(varianceRatio);
        var n = x.Count;
        var (intercept, slope) = DemingLine(x, y, varianceRatio);
        double[] slopes = new double[n], intercepts = new double[n];
        for (var i = 0; i < n; i++)
        {
            var (a, b) = DemingLine([.. x.Where((_, k) => k != i)], [.. y.Where((_, k) => k != i)], varianceRatio);
            intercepts[i] = (n * intercept) - ((n - 1) * a);
            slopes[i] = (n * slope) - ((n - 1) * b);
        }

        return new LineFit(
            new Estimate(intercept, Univariate.StandardDeviation(intercepts) / Math.Sqrt(n), n - 2),
            new Estimate(slope, Univariate.StandardDeviation(slopes) / Math.Sqrt(n), n - 2),
            null);
    }

    /// <summary>York's line: every point has its own errors in x and y.</summary>
    /// <remarks>
    /// York, Evensen, López Martínez and De Basabe Delgado, American Journal of Physics 72 (2004) 367 (from memory); with standard
    /// errors at the adjusted points, for uncertainties that are known; they are not widened by the scatter, which the chi-square shows.
    /// </remarks>
    /// <param name="points">Three points or more with at least two different x.</param>
    /// <returns>Intercept and slope, and the weighted sum of squares against its n − 2 degrees of freedom.</returns>
    /// <exception cref="ArgumentException">There are too few points, all have one x, or the slope does not settle.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static LineFit York(IReadOnlyList<UncertainPoint> points)
    {
        CheckPoints(points);
        var slope = LinearRegression.Line([.. points.Select(p => p.X)], [.. points.Select(p => p.Y)]).Coefficients[1];
        for (var round = 0; round < MostRounds; round++)
        {
            var step = YorkStep.At(points, slope);
            if (!double.IsFinite(step.Slope)) break;
            var settled = Math.Abs(step.Slope - slope) <= 1e-14 * Math.Max(Math.Abs(slope), double.Epsilon);
            slope = step.Slope;
            if (settled || round == MostRounds - 1) return YorkStep.At(points, slope).Line(points);
        }

        throw new ArgumentException("The points do not determine a line: the slope does not settle.", nameof(points));
    }

    private static (double Intercept, double Slope) DemingLine(IReadOnlyList<double> x, IReadOnlyList<double> y, double ratio)
    {
        double meanX = Univariate.CentralMean(x), meanY = Univariate.CentralMean(y);
        double sxx = Univariate.SumOfSquares(x, meanX), syy = Univariate.SumOfSquares(y, meanY);
        var products = default(ExactSum);
        for (var i = 0; i < x.Count; i++) products.AddProduct(x[i] - meanX, y[i] - meanY);
        var sxy = products.Value;
        if (sxy == 0) throw new ArgumentException("x and y do not vary together, so no line is better than another.", nameof(y));
        var difference = syy - (ratio * sxx);
        var slope = (difference + Math.Sqrt((difference * difference) + (4 * ratio * sxy * sxy))) / (2 * sxy);
        return (meanY - (slope * meanX), slope);
    }

    private static void CheckPoints(IReadOnlyList<UncertainPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count < 3) throw new ArgumentException($"A line with errors in both needs three points or more; given: {points.Count}.", nameof(points));
        foreach (var point in points)
        {
            EvidenceInput.Finite(point.X);
            EvidenceInput.Finite(point.Y);
            EvidenceInput.Positive(point.UX);
            EvidenceInput.Positive(point.UY);
            if (point.Correlation is not (> -1 and < 1))
                throw new ArgumentOutOfRangeException(nameof(points), point.Correlation, "The correlation of the two errors must lie between −1 and 1.");
        }
    }
}

/// <summary>A point with its standard uncertainties; equality is by value.</summary>
/// <param name="X">Predicted, or what explains.</param>
/// <param name="Y">Measured, or what is explained.</param>
/// <param name="UX">Standard uncertainty of x, above 0.</param>
/// <param name="UY">Standard uncertainty of y, above 0.</param>
/// <param name="Correlation">Of the two errors, in (−1, 1).</param>
public readonly record struct UncertainPoint(double X, double Y, double UX, double UY, double Correlation = 0);

/// <summary>A line with errors in both; equality is by value.</summary>
/// <param name="Intercept">Where it meets x = 0.</param>
/// <param name="Slope">Its slope.</param>
/// <param name="Scatter">The weighted sum of squares with its p, or null where the uncertainties are not known point by point.</param>
public sealed record LineFit(Estimate Intercept, Estimate Slope, ChiSquareResult? Scatter);
