namespace ClimateGuard.Thermal;

/// <summary>Whether a value conforms, given its uncertainty (JCGM 106:2012; ISO 14253-1:2017).</summary>
/// <remarks>
/// The true value is taken as normal about the measured one with standard uncertainty u, with no other knowledge (JCGM 106, clause 7;
/// from memory). With u = 0 the answer is the plain comparison. Any one unit for value, limits and u.
/// </remarks>
public static class Conformance
{
    /// <summary>The probability at which ISO 14253-1:2017 accepts by default.</summary>
    public const double DefaultProbability = 0.95;

    /// <summary>P(true ≤ limit) = Φ((T_U − y)/u).</summary>
    /// <param name="value">y, the measured or predicted value.</param>
    /// <param name="standardUncertainty">u (k = 1), 0 or more.</param>
    /// <param name="upperLimit">T_U.</param>
    /// <returns>The conformance probability, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double BelowUpper(double value, double standardUncertainty, double upperLimit)
    {
        FormulaInput.Finite(value, "");
        FormulaInput.NotNegative(standardUncertainty, "");
        FormulaInput.Finite(upperLimit, "");
        if (standardUncertainty == 0) return value <= upperLimit ? 1 : 0;
        return StandardNormal.Cdf((upperLimit - value) / standardUncertainty);
    }

    /// <summary>P(true ≥ limit) = 1 − Φ((T_L − y)/u).</summary>
    /// <param name="value">y, the measured or predicted value.</param>
    /// <param name="standardUncertainty">u (k = 1), 0 or more.</param>
    /// <param name="lowerLimit">T_L.</param>
    /// <returns>The conformance probability, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double AboveLower(double value, double standardUncertainty, double lowerLimit) =>
        BelowUpper(-value, standardUncertainty, -lowerLimit);

    /// <summary>P(T_L ≤ true ≤ T_U).</summary>
    /// <param name="value">y, the measured or predicted value.</param>
    /// <param name="standardUncertainty">u (k = 1), 0 or more.</param>
    /// <param name="lowerLimit">T_L.</param>
    /// <param name="upperLimit">T_U, not below T_L.</param>
    /// <returns>The conformance probability, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Between(double value, double standardUncertainty, double lowerLimit, double upperLimit)
    {
        FormulaInput.Finite(lowerLimit, "");
        FormulaInput.InRange(upperLimit, lowerLimit, double.MaxValue, "");
        // The two tails taken off 1 cancel far outside the limits; there the difference on the near side keeps its digits.
        var middle = lowerLimit + ((upperLimit - lowerLimit) / 2);
        var probability = value <= middle
            ? AboveLower(value, standardUncertainty, lowerLimit) - (1 - BelowUpper(value, standardUncertainty, upperLimit))
            : BelowUpper(value, standardUncertainty, upperLimit) - (1 - AboveLower(value, standardUncertainty, lowerLimit));
        return Math.Clamp(probability, 0, 1);
    }

    /// <summary>The guard band for one limit: g = Φ⁻¹(p)·u; 1.645·u at 95 % (ISO 14253-1:2017).</summary>
    /// <param name="standardUncertainty">u (k = 1), 0 or more.</param>
    /// <param name="probability">The conformance probability wanted, in [0.5, 1).</param>
    /// <returns>How far inside its limit a value must lie, in the unit of u.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double GuardBand(double standardUncertainty, double probability = DefaultProbability)
    {
        FormulaInput.NotNegative(standardUncertainty, "");
        FormulaInput.InRange(probability, 0.5, 1, "");
        return StandardNormal.Quantile(probability) * standardUncertainty;
    }

    /// <summary>The largest value to accept under one upper limit: T_U − g.</summary>
    /// <param name="standardUncertainty">u (k = 1), 0 or more.</param>
    /// <param name="upperLimit">T_U.</param>
    /// <param name="probability">The conformance probability wanted, in [0.5, 1).</param>
    /// <returns>The acceptance limit, in the unit of T_U.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double LargestAccepted(double standardUncertainty, double upperLimit, double probability = DefaultProbability) =>
        FormulaInput.Finite(upperLimit, "") - GuardBand(standardUncertainty, probability);

    /// <summary>The values to accept between two limits, counting both tails.</summary>
    /// <param name="standardUncertainty">u (k = 1), 0 or more.</param>
    /// <param name="lowerLimit">T_L.</param>
    /// <param name="upperLimit">T_U, not below T_L.</param>
    /// <param name="probability">The conformance probability wanted, in [0.5, 1).</param>
    /// <returns>Lowest and highest accepted value, or null when not even the middle reaches the probability.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static (double Lowest, double Highest)? AcceptanceInterval(
        double standardUncertainty, double lowerLimit, double upperLimit, double probability = DefaultProbability)
    {
        GuardBand(standardUncertainty, probability);
        var middle = lowerLimit + ((upperLimit - lowerLimit) / 2);
        if (Between(middle, standardUncertainty, lowerLimit, upperLimit) < probability) return null;
        double inside = middle, outside = upperLimit;
        if (standardUncertainty == 0) return (lowerLimit, upperLimit);
        for (var i = 0; i < 200 && outside > inside; i++)
        {
            var trial = inside + ((outside - inside) / 2);
            if (trial == inside || trial == outside) break;
            if (Between(trial, standardUncertainty, lowerLimit, upperLimit) >= probability) inside = trial;
            else outside = trial;
        }

        return (lowerLimit + (upperLimit - inside), inside);
    }
}
