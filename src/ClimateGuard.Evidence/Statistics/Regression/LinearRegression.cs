using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Linear regression of one list on one or several, with or without intercept.</summary>
/// <remarks>
/// Least squares by Householder reflections on centred columns of length 1, with one step of refinement, so that columns far from zero
/// (years, temperatures in kelvin) lose no digits. Source of the formulas: NIST/SEMATECH e-Handbook 4.4.3 and 4.5.1.
/// </remarks>
public static class LinearRegression
{
    /// <summary>The regression.</summary>
    /// <param name="columns">One list or more of what explains, each as long as the observations.</param>
    /// <param name="observations">What is explained; more values than coefficients.</param>
    /// <param name="intercept">False forces the line through zero; R² and F are then about zero and not about the mean.</param>
    /// <returns>Coefficients, the intercept first where there is one, with covariance, residuals and the analysis of variance.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short, or one does not vary or depends on the others.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static RegressionFit Fit(IReadOnlyList<IReadOnlyList<double>> columns, IReadOnlyList<double> observations, bool intercept = true)
    {
        Check(columns, observations, intercept);
        double[] centres = [.. columns.Select(column => intercept ? Univariate.CentralMean(column) : 0)];
        var centreOfY = intercept ? Univariate.CentralMean(observations) : 0;
        double[] lengths = [.. columns.Select((column, j) => Length(column, centres[j]))];
        double[][] scaled = [.. columns.Select((column, j) => Scaled(column, centres[j], lengths[j]))];
        double[] y = [.. observations.Select(value => value - centreOfY)];
        var inverse = DesignInverse.Of(scaled, nameof(columns));
        var slopes = LinearLeastSquares.Solve(scaled, y).Coefficients.ToArray();
        var residuals = Residuals(scaled, y, slopes);
        // The residuals are exact enough to find what the first solution rounded away.
        var refinement = LinearLeastSquares.Solve(scaled, residuals).Coefficients;
        for (var j = 0; j < slopes.Length; j++) slopes[j] += refinement[j];
        residuals = Residuals(scaled, y, slopes);
        for (var j = 0; j < slopes.Length; j++)
        {
            slopes[j] /= lengths[j];
            for (var k = 0; k < slopes.Length; k++) inverse[j][k] /= lengths[j] * lengths[k];
        }

        return intercept
            ? WithIntercept(slopes, inverse, centres, centreOfY, residuals, y)
            : new RegressionFit(slopes, inverse, residuals, Squares(y), false);
    }

    /// <summary>The regression on one list.</summary>
    /// <param name="x">What explains.</param>
    /// <param name="y">What is explained, as many; three values or more.</param>
    /// <param name="intercept">False forces the line through zero.</param>
    /// <returns>The regression; coefficient 0 is the intercept and 1 the slope, or 0 the slope without intercept.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short, or x does not vary.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static RegressionFit Line(IReadOnlyList<double> x, IReadOnlyList<double> y, bool intercept = true) => Fit([x], y, intercept);

    private static RegressionFit WithIntercept(
        double[] slopes, double[][] inverse, double[] centres, double centreOfY, double[] residuals, double[] y)
    {
        var k = slopes.Length;
        var start = default(ExactSum);
        start.Add(centreOfY);
        for (var j = 0; j < k; j++) start.AddProduct(-slopes[j], centres[j]);
        var full = new double[k + 1][];
        for (var j = 0; j <= k; j++) full[j] = new double[k + 1];
        var corner = 1.0 / y.Length;
        for (var j = 0; j < k; j++)
        {
            var share = 0.0;
            for (var l = 0; l < k; l++) share += inverse[j][l] * centres[l];
            full[0][j + 1] = full[j + 1][0] = -share;
            corner += share * centres[j];
            inverse[j].CopyTo(full[j + 1], 1);
        }

        full[0][0] = corner;
        return new RegressionFit([start.Value, .. slopes], full, residuals, Squares(y), true);
    }

    private static double[] Residuals(double[][] columns, double[] y, double[] slopes)
    {
        var residuals = new double[y.Length];
        for (var i = 0; i < y.Length; i++)
        {
            var sum = default(ExactSum);
            sum.Add(y[i]);
            for (var j = 0; j < columns.Length; j++) sum.AddProduct(-slopes[j], columns[j][i]);
            residuals[i] = sum.Value;
        }

        return residuals;
    }

    private static double Length(IReadOnlyList<double> column, double centre)
    {
        var length = Math.Sqrt(Univariate.SumOfSquares(column, centre));
        if (centre != 0) return length;
        var squares = default(ExactSum);
        foreach (var value in column) squares.AddProduct(value, value);
        return Math.Sqrt(squares.Value);
    }

    private static double[] Scaled(IReadOnlyList<double> column, double centre, double length) =>
        [.. column.Select(value => length > 0 ? (value - centre) / length : 0)];

    private static double Squares(double[] values)
    {
        var sum = default(ExactSum);
        foreach (var value in values) sum.AddProduct(value, value);
        return sum.Value;
    }

    private static void Check(IReadOnlyList<IReadOnlyList<double>> columns, IReadOnlyList<double> observations, bool intercept)
    {
        ArgumentNullException.ThrowIfNull(columns);
        if (columns.Count == 0) throw new ArgumentException("A regression needs one column or more.", nameof(columns));
        EvidenceInput.Sample(observations, columns.Count + (intercept ? 2 : 1));
        foreach (var column in columns)
        {
            EvidenceInput.Sample(column, 0, nameof(columns));
            EvidenceInput.SameLength(column.Count, observations.Count, nameof(columns), nameof(observations));
        }
    }
}
