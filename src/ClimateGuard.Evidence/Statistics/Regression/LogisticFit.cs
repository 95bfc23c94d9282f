namespace ClimateGuard.Evidence;

/// <summary>How a logistic regression ended.</summary>
public enum LogisticOutcome
{
    /// <summary>A fit exists and was found.</summary>
    Found,

    /// <summary>The columns split yes from no, at least in part; the best coefficients are infinite.</summary>
    Separated,

    /// <summary>All outcomes are yes, or all are no; there is nothing to explain.</summary>
    OneOutcomeOnly,
}

/// <summary>A logistic regression, or the reason why there is none. Immutable; equality is that of the reference.</summary>
public sealed class LogisticFit
{
    private readonly double[] _coefficients;
    private readonly double[][] _covariance;

    internal LogisticFit(CentredDesign design, double[] beta, BinomialCounts data, double nullDeviance, double deviance)
    {
        var predictor = design.Predict(beta);
        _coefficients = design.AsGiven(beta);
        _covariance = design.AsGiven(DesignInverse.Of(design.Weighted(data.RootWeights(predictor)), "columns"));
        Outcome = LogisticOutcome.Found;
        NullDeviance = nullDeviance;
        Deviance = deviance;
        LogLikelihood = data.LogLikelihood(predictor);
    }

    private LogisticFit(LogisticOutcome outcome, double nullDeviance)
    {
        Outcome = outcome;
        NullDeviance = nullDeviance;
        _coefficients = [];
        _covariance = [];
    }

    /// <summary>Whether there is a fit; without one the coefficients are empty.</summary>
    public LogisticOutcome Outcome { get; }

    /// <summary>The coefficients, the intercept first; empty without a fit.</summary>
    public IReadOnlyList<double> Coefficients => _coefficients;

    /// <summary>Deviance of the share alone, without any column.</summary>
    public double NullDeviance { get; }

    /// <summary>Residual deviance; 0 without a fit.</summary>
    public double Deviance { get; }

    /// <summary>Log likelihood of the single trials; 0 without a fit.</summary>
    public double LogLikelihood { get; }

    /// <summary>Akaike's criterion: 2·coefficients − 2·log likelihood; 0 without a fit.</summary>
    public double Akaike => (2 * _coefficients.Length) - (2 * LogLikelihood);

    /// <summary>The test of all columns together: the fall of the deviance against χ².</summary>
    /// <exception cref="InvalidOperationException">There is no fit.</exception>
    public ChiSquareResult LikelihoodRatio
    {
        get
        {
            RequireFit();
            var fall = Math.Max(0, NullDeviance - Deviance);
            return new ChiSquareResult(fall, _coefficients.Length - 1, Tail.ChiSquare(fall, _coefficients.Length - 1));
        }
    }

    /// <summary>A coefficient with its standard error from the information, normal.</summary>
    /// <param name="place">From 0; 0 is the intercept.</param>
    /// <returns>The estimate, in log odds (per unit of the column).</returns>
    /// <exception cref="InvalidOperationException">There is no fit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no such coefficient.</exception>
    public Estimate Coefficient(int place) => new(
        _coefficients[EvidenceInput.Count(place, 0, RequireFit() - 1)], Math.Sqrt(_covariance[place][place]), double.PositiveInfinity);

    /// <summary>Covariance of two coefficients.</summary>
    /// <param name="first">Place of the first, from 0.</param>
    /// <param name="second">Place of the second, from 0.</param>
    /// <returns>The covariance.</returns>
    /// <exception cref="InvalidOperationException">There is no fit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no such coefficient.</exception>
    public double Covariance(int first, int second)
    {
        var count = RequireFit();
        return _covariance[EvidenceInput.Count(first, 0, count - 1)][EvidenceInput.Count(second, 0, count - 1)];
    }

    /// <summary>P(yes) at values of the columns.</summary>
    /// <param name="values">One for each column, finite.</param>
    /// <returns>In [0, 1].</returns>
    /// <exception cref="InvalidOperationException">There is no fit.</exception>
    /// <exception cref="ArgumentException">There are not as many values as columns.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public double Probability(params IReadOnlyList<double> values)
    {
        EvidenceInput.Sample(values, 0);
        EvidenceInput.SameLength(RequireFit() - 1, values.Count, "columns", nameof(values));
        return BinomialCounts.Probability(_coefficients[0] + values.Select((value, j) => value * _coefficients[j + 1]).Sum());
    }

    internal static LogisticFit None(LogisticOutcome outcome, double nullDeviance) => new(outcome, nullDeviance);

    private int RequireFit() => Outcome == LogisticOutcome.Found
        ? _coefficients.Length
        : throw new InvalidOperationException(Outcome == LogisticOutcome.Separated
            ? "The columns split yes from no, so the coefficients are infinite. Report the table of counts with an exact test instead."
            : "All outcomes are the same, so there is nothing to explain.");
}
