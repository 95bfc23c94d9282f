namespace ClimateGuard.Thermal;

/// <summary>A result with the named contributions to its uncertainty; the same lines are shown, stored and sent.</summary>
/// <remarks>
/// First-order propagation of JCGM 100, 5.1.2 and 5.2.2: u² = Σ (cᵢuᵢ)² + 2·Σ r·(cᵢuᵢ)(cⱼuⱼ); effective degrees of freedom by
/// Welch–Satterthwaite, G.4.1. Product terms of second order are reported beside it and never added unasked: where an expected
/// difference is 0 K, first order hides the expansion coefficient. Equality is that of the references of the lists. Immutable, so
/// safe across threads.
/// </remarks>
public sealed class UncertaintyBudget
{
    private readonly Dictionary<string, Contribution> _byLabel;

    /// <summary>A budget of its lines.</summary>
    /// <param name="estimate">The result, in its unit.</param>
    /// <param name="contributions">One line per input, labels unique.</param>
    /// <param name="correlations">Pairs that err together; others are independent.</param>
    /// <param name="products">Pairs that act through their product.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number lies outside its range, or is not a number.</exception>
    /// <exception cref="ArgumentException">A label is empty, used twice or not in the budget, or the correlations contradict each other.</exception>
    public UncertaintyBudget(
        double estimate,
        IEnumerable<Contribution> contributions,
        IEnumerable<Correlation>? correlations = null,
        IEnumerable<ProductTerm>? products = null)
    {
        ArgumentNullException.ThrowIfNull(contributions);
        Estimate = FormulaInput.Finite(estimate, "");
        Contributions = [.. contributions];
        Correlations = [.. correlations ?? []];
        Products = [.. products ?? []];
        _byLabel = new(StringComparer.Ordinal);
        foreach (var contribution in Contributions) Add(contribution);
        foreach (var correlation in Correlations)
        {
            CheckPair(correlation.First, correlation.Second);
            FormulaInput.InRange(correlation.Coefficient, -1, 1, "", $"correlation of {correlation.First} and {correlation.Second}");
        }

        foreach (var product in Products)
        {
            CheckPair(product.First, product.Second);
            FormulaInput.Finite(product.MixedDerivative, "", $"mixed derivative of {product.First} and {product.Second}");
        }

        CombinedStandardUncertainty = Math.Sqrt(CombinedVariance());
    }

    /// <summary>The result, in its unit.</summary>
    public double Estimate { get; }

    /// <summary>The lines, in the order given.</summary>
    public IReadOnlyList<Contribution> Contributions { get; }

    /// <summary>The pairs that err together.</summary>
    public IReadOnlyList<Correlation> Correlations { get; }

    /// <summary>The pairs that act through their product.</summary>
    public IReadOnlyList<ProductTerm> Products { get; }

    /// <summary>u of the result to first order, in its unit, 0 or more.</summary>
    public double CombinedStandardUncertainty { get; }

    /// <summary>The part of u² that the product terms add, as a standard uncertainty in the unit of the result.</summary>
    public double SecondOrderStandardUncertainty
    {
        get
        {
            var variance = 0.0;
            foreach (var product in Products) variance += Math.Pow(Magnitude(product), 2);
            return Math.Sqrt(variance);
        }
    }

    /// <summary>u of the result with its product terms, in its unit; never below the first-order one.</summary>
    public double StandardUncertaintyWithProducts => double.Hypot(CombinedStandardUncertainty, SecondOrderStandardUncertainty);

    /// <summary>Effective degrees of freedom by Welch–Satterthwaite, in [1, ∞]: u⁴/Σ((cᵢuᵢ)⁴/νᵢ).</summary>
    /// <remarks>JCGM 100, G.4.1, which assumes independent inputs; with correlated ones it is an approximation.</remarks>
    public double EffectiveDegreesOfFreedom
    {
        get
        {
            var denominator = 0.0;
            foreach (var line in Contributions)
            {
                if (double.IsFinite(line.DegreesOfFreedom)) denominator += Math.Pow(line.Magnitude, 4) / line.DegreesOfFreedom;
            }

            return denominator == 0 ? double.PositiveInfinity : Math.Max(1, Math.Pow(CombinedStandardUncertainty, 4) / denominator);
        }
    }

    /// <summary>The standard uncertainty of a product term, in the unit of the result.</summary>
    /// <param name="product">A term of this budget.</param>
    /// <returns>|∂²|·u·u, 0 or more.</returns>
    /// <exception cref="ArgumentException">The term names an input that is not in the budget.</exception>
    public double Magnitude(ProductTerm product)
    {
        ArgumentNullException.ThrowIfNull(product);
        CheckPair(product.First, product.Second);
        return Math.Abs(product.MixedDerivative) * _byLabel[product.First].StandardUncertainty * _byLabel[product.Second].StandardUncertainty;
    }

    /// <summary>U = t_p(ν)·u, first order, with ν the effective degrees of freedom cut to a whole number (JCGM 100, G.4.1 note 1).</summary>
    /// <param name="probability">The coverage probability, in (0, 1), such as 0.95.</param>
    /// <returns>The expanded uncertainty, in the unit of the result.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability lies outside its range.</exception>
    public double ExpandedUncertainty(double probability) =>
        CoverageFactor.TwoSided(probability, Math.Floor(EffectiveDegreesOfFreedom)) * CombinedStandardUncertainty;

    /// <summary>U = t_p(ν)·u, first order, with ν as it is, between whole numbers.</summary>
    /// <param name="probability">The coverage probability, in (0, 1), such as 0.95.</param>
    /// <returns>The expanded uncertainty, in the unit of the result.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability lies outside its range.</exception>
    public double ExpandedUncertaintyInterpolated(double probability) =>
        CoverageFactor.TwoSided(probability, EffectiveDegreesOfFreedom) * CombinedStandardUncertainty;

    private void Add(Contribution line)
    {
        if (string.IsNullOrWhiteSpace(line.Label)) throw new ArgumentException("Every contribution needs a label.", nameof(line));
        if (!_byLabel.TryAdd(line.Label, line))
            throw new ArgumentException($"Two contributions are called '{line.Label}'; each needs a label of its own.", nameof(line));
        FormulaInput.Finite(line.Estimate, "", $"estimate of {line.Label}");
        FormulaInput.NotNegative(line.StandardUncertainty, "", $"standard uncertainty of {line.Label}");
        FormulaInput.Finite(line.Sensitivity, "", $"sensitivity of {line.Label}");
        FormulaInput.InRange(line.DegreesOfFreedom, 1, double.PositiveInfinity, "", $"degrees of freedom of {line.Label}");
    }

    private void CheckPair(string first, string second)
    {
        foreach (var label in (ReadOnlySpan<string>)[first, second])
        {
            if (!_byLabel.ContainsKey(label))
                throw new ArgumentException($"'{label}' is not a contribution of this budget; it has {string.Join(", ", _byLabel.Keys)}.");
        }

        if (string.Equals(first, second, StringComparison.Ordinal))
            throw new ArgumentException($"'{first}' is paired with itself; a pair needs two contributions.");
    }

    private double CombinedVariance()
    {
        double variance = 0, scale = 0;
        foreach (var line in Contributions) variance += line.Magnitude * line.Magnitude;
        foreach (var pair in Correlations)
        {
            var term = 2 * pair.Coefficient * _byLabel[pair.First].Signed * _byLabel[pair.Second].Signed;
            variance += term;
            scale = Math.Max(scale, Math.Abs(term));
        }

        // Full correlation may cancel to a rounding error below zero; more than that is a set of coefficients no inputs can have.
        if (variance < -1e-9 * scale)
            throw new ArgumentException("The correlation coefficients contradict each other: the variance of the result would be negative.");
        return Math.Max(0, variance);
    }
}
