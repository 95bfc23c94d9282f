using ClimateGuard.Thermal;
using MathNet.Numerics;

namespace ClimateGuard.Evidence;

/// <summary>Tail probabilities, each computed in its own tail so that small ones keep their digits.</summary>
/// <remarks>Regularised incomplete beta and gamma functions; Abramowitz and Stegun 26.5 and 26.4 (from memory).</remarks>
internal static class Tail
{
    public static double Normal(double z, Alternative alternative) => alternative switch
    {
        Alternative.Less => StandardNormal.Cdf(z),
        Alternative.Greater => StandardNormal.Cdf(-z),
        _ => Math.Min(1, 2 * StandardNormal.Cdf(-Math.Abs(z))),
    };

    public static double Student(double t, double degreesOfFreedom, Alternative alternative = Alternative.TwoSided)
    {
        if (double.IsInfinity(t))
            return alternative == Alternative.TwoSided || (t > 0) == (alternative == Alternative.Greater) ? 0 : 1;
        if (double.IsPositiveInfinity(degreesOfFreedom)) return Normal(t, alternative);
        var twoSided = SpecialFunctions.BetaRegularized(degreesOfFreedom / 2, 0.5, degreesOfFreedom / (degreesOfFreedom + (t * t)));
        if (alternative == Alternative.TwoSided) return twoSided;
        return (t > 0) == (alternative == Alternative.Greater) ? twoSided / 2 : 1 - (twoSided / 2);
    }

    /// <summary>P(F above the value).</summary>
    public static double FisherSnedecor(double value, double upper, double lower)
    {
        if (double.IsPositiveInfinity(value)) return 0;
        return value <= 0 ? 1 : SpecialFunctions.BetaRegularized(lower / 2, upper / 2, lower / (lower + (upper * value)));
    }

    /// <summary>P(χ² above the value).</summary>
    public static double ChiSquare(double value, double degreesOfFreedom)
    {
        if (double.IsPositiveInfinity(value)) return 0;
        return value <= 0 ? 1 : SpecialFunctions.GammaUpperRegularized(degreesOfFreedom / 2, value / 2);
    }

    /// <summary>P(X ≥ successes) of a binomial count.</summary>
    public static double BinomialAtLeast(int successes, int trials, double probability)
    {
        if (successes <= 0) return 1;
        return successes > trials ? 0 : SpecialFunctions.BetaRegularized(successes, trials - successes + 1, probability);
    }

    /// <summary>P(X ≤ successes) of a binomial count.</summary>
    public static double BinomialAtMost(int successes, int trials, double probability)
    {
        if (successes >= trials) return 1;
        return successes < 0 ? 0 : SpecialFunctions.BetaRegularized(trials - successes, successes + 1, 1 - probability);
    }

    /// <summary>The value of χ² that is exceeded with the probability.</summary>
    public static double ChiSquareQuantile(double cumulative, double degreesOfFreedom) =>
        cumulative <= 0.5
            ? MonotoneRoot.Find(x => SpecialFunctions.GammaLowerRegularized(degreesOfFreedom / 2, x / 2) - cumulative, 0, ChiSquareCeiling(degreesOfFreedom))
            : MonotoneRoot.Find(x => 1 - cumulative - ChiSquare(x, degreesOfFreedom), 0, ChiSquareCeiling(degreesOfFreedom));

    // The mean plus forty standard deviations and more: no double is beyond.
    private static double ChiSquareCeiling(double degreesOfFreedom) => degreesOfFreedom + (60 * Math.Sqrt(2 * degreesOfFreedom)) + 1500;
}
