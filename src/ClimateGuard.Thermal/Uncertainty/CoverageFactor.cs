using MathNet.Numerics.Distributions;

namespace ClimateGuard.Thermal;

/// <summary>The k that turns a standard uncertainty into an interval (JCGM 100, annex G).</summary>
public static class CoverageFactor
{
    // Above this the t-distribution equals the normal one to 1e-9 and its own series loses digits.
    private const double LargeDegreesOfFreedom = 1e9;

    /// <summary>t_p(ν): the interval ±k holds the share p of a t-distribution.</summary>
    /// <param name="probability">p, in (0, 1).</param>
    /// <param name="degreesOfFreedom">ν, in [1, ∞]; infinity is the normal distribution.</param>
    /// <returns>k, above 0.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double TwoSided(double probability, double degreesOfFreedom = double.PositiveInfinity)
    {
        StandardNormal.CheckProbability(probability, nameof(probability));
        return Quantile((1 + probability) / 2, degreesOfFreedom);
    }

    /// <summary>The value below which the share p of a t-distribution lies.</summary>
    /// <param name="probability">p, in (0, 1).</param>
    /// <param name="degreesOfFreedom">ν, in [1, ∞]; infinity is the normal distribution.</param>
    /// <returns>The quantile.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double Quantile(double probability, double degreesOfFreedom)
    {
        StandardNormal.CheckProbability(probability, nameof(probability));
        FormulaInput.InRange(degreesOfFreedom, 1, double.PositiveInfinity, "");
        return degreesOfFreedom > LargeDegreesOfFreedom
            ? StandardNormal.Quantile(probability)
            : StudentT.InvCDF(0, 1, degreesOfFreedom, probability);
    }
}
