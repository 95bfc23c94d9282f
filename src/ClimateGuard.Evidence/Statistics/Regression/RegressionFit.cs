using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>A fitted linear regression. Immutable; equality is that of the reference.</summary>
public sealed class RegressionFit
{
    private readonly double[] _coefficients;
    private readonly double[][] _inverse;
    private readonly double[] _residuals;

    internal RegressionFit(double[] coefficients, double[][] inverse, double[] residuals, double totalSumOfSquares, bool hasIntercept)
    {
        _coefficients = coefficients;
        _inverse = inverse;
        _residuals = residuals;
        HasIntercept = hasIntercept;
        TotalSumOfSquares = totalSumOfSquares;
        var sum = default(ExactSum);
        foreach (var residual in residuals) sum.AddProduct(residual, residual);
        ResidualSumOfSquares = sum.Value;
        DegreesOfFreedom = residuals.Length - coefficients.Length;
    }

    /// <summary>Whether coefficient 0 is an intercept.</summary>
    public bool HasIntercept { get; }

    /// <summary>The coefficients, the intercept first where there is one, then the columns in the order given.</summary>
    public IReadOnlyList<double> Coefficients => _coefficients;

    /// <summary>Observed minus fitted, in the unit of the observations.</summary>
    public IReadOnlyList<double> Residuals => _residuals;

    /// <summary>Number of observations less number of coefficients, one or more.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>Sum of squared residuals.</summary>
    public double ResidualSumOfSquares { get; }

    /// <summary>Sum of squares about the mean with an intercept, about zero without.</summary>
    public double TotalSumOfSquares { get; }

    /// <summary>What the regression explains of the total sum of squares.</summary>
    public double RegressionSumOfSquares => Math.Max(0, TotalSumOfSquares - ResidualSumOfSquares);

    /// <summary>√(SSE/ν), in the unit of the observations.</summary>
    public double ResidualStandardDeviation => Math.Sqrt(ResidualSumOfSquares / DegreesOfFreedom);

    /// <summary>1 − SSE/SST, in [0, 1]; 0 where the observations have no spread to explain.</summary>
    public double RSquared => TotalSumOfSquares > 0 ? Math.Max(0, 1 - (ResidualSumOfSquares / TotalSumOfSquares)) : 0;

    /// <summary>Mean square of the regression over that of the residuals; infinite for an exact fit, 0 where nothing is explained.</summary>
    public double F
    {
        get
        {
            var explained = RegressionSumOfSquares / ExplainingColumns;
            if (explained == 0) return 0;
            return ResidualSumOfSquares > 0 ? explained / (ResidualSumOfSquares / DegreesOfFreedom) : double.PositiveInfinity;
        }
    }

    /// <summary>P(F as large without any effect), in [0, 1].</summary>
    public double FPValue => Tail.FisherSnedecor(F, ExplainingColumns, DegreesOfFreedom);

    private int ExplainingColumns => _coefficients.Length - (HasIntercept ? 1 : 0);

    /// <summary>Covariance of two coefficients, from the residual spread.</summary>
    /// <param name="first">Place of the first, from 0.</param>
    /// <param name="second">Place of the second, from 0.</param>
    /// <returns>The covariance, in the product of their units.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such coefficient.</exception>
    public double Covariance(int first, int second) =>
        UnscaledCovariance(first, second) * ResidualSumOfSquares / DegreesOfFreedom;

    /// <summary>(XᵀX)⁻¹ at two coefficients: the covariance for observations of standard deviation 1.</summary>
    /// <param name="first">Place of the first, from 0.</param>
    /// <param name="second">Place of the second, from 0.</param>
    /// <returns>The element.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such coefficient.</exception>
    public double UnscaledCovariance(int first, int second)
    {
        EvidenceInput.Count(first, 0, _coefficients.Length - 1);
        EvidenceInput.Count(second, 0, _coefficients.Length - 1);
        return _inverse[first][second];
    }

    /// <summary>A coefficient with its standard error and degrees of freedom.</summary>
    /// <param name="place">From 0; 0 is the intercept where there is one.</param>
    /// <returns>The estimate, ready for intervals and tests.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such coefficient.</exception>
    public Estimate Coefficient(int place) => new(_coefficients[EvidenceInput.Count(place, 0, _coefficients.Length - 1)],
        Math.Sqrt(Covariance(place, place)), DegreesOfFreedom);

    /// <summary>A coefficient whose standard error allows for parts of one episode being alike.</summary>
    /// <remarks>
    /// The sandwich estimator summed over episodes with the factor G/(G − 1)·(n − 1)/(n − k), known as CR1, and t with G − 1 degrees of
    /// freedom (Cameron and Miller, Journal of Human Resources 50 (2015) 317, from memory). With fewer than about 30 episodes it still
    /// promises a little too much.
    /// </remarks>
    /// <param name="place">From 0; 0 is the intercept where there is one.</param>
    /// <param name="columns">The columns the regression was fitted on.</param>
    /// <param name="episodes">The episode of each observation, two different ones or more.</param>
    /// <returns>The estimate, ready for intervals and tests.</returns>
    /// <exception cref="ArgumentException">The lists do not belong to this regression, or there is one episode only.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no such coefficient.</exception>
    public Estimate CoefficientByEpisode(int place, IReadOnlyList<IReadOnlyList<double>> columns, IReadOnlyList<int> episodes)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(episodes);
        EvidenceInput.Count(place, 0, _coefficients.Length - 1);
        EvidenceInput.SameLength(_residuals.Length, episodes.Count, "observations", nameof(episodes));
        if (columns.Count != ExplainingColumns || columns.Any(column => column.Count != _residuals.Length))
            throw new ArgumentException("columns must be those the regression was fitted on.", nameof(columns));

        // Row `place` of (XᵀX)⁻¹Xᵀ times the residual is the pull of one observation on the coefficient; pulls add within an episode.
        var pulls = new Dictionary<int, double>();
        for (var i = 0; i < _residuals.Length; i++)
        {
            var weight = HasIntercept ? _inverse[place][0] : 0;
            for (var j = 0; j < columns.Count; j++) weight += _inverse[place][j + (HasIntercept ? 1 : 0)] * columns[j][i];
            pulls[episodes[i]] = pulls.GetValueOrDefault(episodes[i]) + (weight * _residuals[i]);
        }

        double g = pulls.Count, n = _residuals.Length;
        if (g < 2) throw new ArgumentException("All observations are of one episode; nothing can be told about others.", nameof(episodes));
        var variance = pulls.Values.Sum(pull => pull * pull) * (g / (g - 1)) * ((n - 1) / DegreesOfFreedom);
        return new Estimate(_coefficients[place], Math.Sqrt(variance), g - 1);
    }
}
