using MathNet.Numerics;

namespace ClimateGuard.Thermal;

/// <summary>erfc and its scaled form, which stays finite where exp·erfc would overflow.</summary>
internal static class ComplementaryError
{
    private const double ContinuedFractionFrom = 5;
    private const int ContinuedFractionDepth = 40;

    /// <summary>erfc(x) = 1 − erf(x).</summary>
    public static double Of(double x) => SpecialFunctions.Erfc(x);

    /// <summary>exp(x²)·erfc(x) for x of 0 or more, by the continued fraction of Abramowitz and Stegun 7.1.14 where x is large.</summary>
    public static double Scaled(double x)
    {
        if (x < ContinuedFractionFrom) return Math.Exp(x * x) * SpecialFunctions.Erfc(x);
        var tail = x;
        for (var n = ContinuedFractionDepth; n >= 1; n--) tail = x + (n / (2 * tail));
        return 1 / (Math.Sqrt(Math.PI) * tail);
    }
}
