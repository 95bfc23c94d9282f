namespace ClimateGuard.Evidence;

/// <summary>Columns centred and of spread 1 with a leading column of ones, and the way back to the columns as given.</summary>
internal sealed class CentredDesign
{
    private readonly double[] _centres;
    private readonly double[] _lengths;
    private readonly double[][] _columns;

    private CentredDesign(double[] centres, double[] lengths, double[][] columns)
    {
        _centres = centres;
        _lengths = lengths;
        _columns = columns;
    }

    public static CentredDesign Of(IReadOnlyList<IReadOnlyList<double>> columns)
    {
        double[] centres = [.. columns.Select(Univariate.CentralMean)];
        double[] lengths = [.. columns.Select((column, j) => Math.Sqrt(Univariate.SumOfSquares(column, centres[j]) / column.Count))];
        if (lengths.Contains(0)) throw new ArgumentException("A column does not vary, so its effect cannot be told.", nameof(columns));
        double[][] scaled = [.. columns.Select((column, j) => column.Select(value => (value - centres[j]) / lengths[j]).ToArray())];
        double[] ones = [.. Enumerable.Repeat(1.0, columns[0].Count)];
        // Columns that depend on each other are named here, before any weight blurs it.
        DesignInverse.Of([ones, .. scaled], nameof(columns));
        return new CentredDesign(centres, lengths, [ones, .. scaled]);
    }

    public double[] Predict(double[] beta)
    {
        var predictor = new double[_columns[0].Length];
        for (var j = 0; j < _columns.Length; j++)
        {
            for (var i = 0; i < predictor.Length; i++) predictor[i] += beta[j] * _columns[j][i];
        }

        return predictor;
    }

    public double[][] Weighted(double[] roots) => [.. _columns.Select(column => column.Select((value, i) => value * roots[i]).ToArray())];

    /// <summary>Coefficients of the columns as given, the intercept first.</summary>
    public double[] AsGiven(double[] beta)
    {
        var given = new double[beta.Length];
        given[0] = beta[0];
        for (var j = 1; j < beta.Length; j++)
        {
            given[j] = beta[j] / _lengths[j - 1];
            given[0] -= given[j] * _centres[j - 1];
        }

        return given;
    }

    /// <summary>Covariance of the coefficients as given, from that of the centred ones.</summary>
    public double[][] AsGiven(double[][] covariance)
    {
        // AsGiven is linear: apply it to the columns, then to the rows.
        double[][] half = [.. covariance.Select(AsGiven)];
        double[][] turned = [.. half[0].Select((_, j) => AsGiven([.. half.Select(row => row[j])]))];
        return turned;
    }
}
