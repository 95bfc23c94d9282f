using MathNet.Numerics;

namespace ClimateGuard.Thermal;

/// <summary>The normal distribution of mean 0 and standard deviation 1, to 1e-14 in probability and 1e-12 in quantile.</summary>
public static class StandardNormal
{
    private static readonly double RootTwo = Math.Sqrt(2);

    /// <summary>Φ(z) = ½·erfc(−z/√2), with full relative accuracy in the lower tail.</summary>
    /// <param name="z">Any number; the infinities give 0 and 1.</param>
    /// <returns>The probability of a value up to z, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">z is not a number.</exception>
    public static double Cdf(double z)
    {
        FormulaInput.InRange(z, double.NegativeInfinity, double.PositiveInfinity, "");
        return 0.5 * SpecialFunctions.Erfc(-z / RootTwo);
    }

    /// <summary>φ(z) = exp(−z²/2)/√(2π).</summary>
    /// <param name="z">Any number.</param>
    /// <returns>The density, 0 or more.</returns>
    /// <exception cref="ArgumentOutOfRangeException">z is not a number.</exception>
    public static double Density(double z)
    {
        FormulaInput.InRange(z, double.NegativeInfinity, double.PositiveInfinity, "");
        return Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI);
    }

    /// <summary>Φ⁻¹(p).</summary>
    /// <param name="probability">p, in (0, 1).</param>
    /// <returns>z with Φ(z) = p.</returns>
    /// <exception cref="ArgumentOutOfRangeException">p lies outside (0, 1), or is not a number.</exception>
    public static double Quantile(double probability)
    {
        CheckProbability(probability, nameof(probability));
        // The near tail keeps its digits; 1 − p for p above ½ is exact.
        return probability <= 0.5 ? LowerTail(probability) : -LowerTail(1 - probability);
    }

    internal static void CheckProbability(double probability, string name)
    {
        if (probability is > 0 and < 1) return;
        throw new ArgumentOutOfRangeException(name, probability, $"{name} must lie between 0 and 1, both excluded.");
    }

    private static double LowerTail(double probability)
    {
        var z = -RootTwo * SpecialFunctions.ErfcInv(2 * probability);
        var density = Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI);
        // One step of Newton's rule with the curvature (Halley) takes the rational approximation to the last digits.
        if (density < 1e-300) return z;
        var step = ((0.5 * SpecialFunctions.Erfc(-z / RootTwo)) - probability) / density;
        return z - (step / (1 + (z * step / 2)));
    }
}
