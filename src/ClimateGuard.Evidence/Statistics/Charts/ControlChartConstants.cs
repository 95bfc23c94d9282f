using MathNet.Numerics;

namespace ClimateGuard.Evidence;

/// <summary>The constants of control charts for normal values.</summary>
/// <remarks>NIST/SEMATECH e-Handbook 6.3.2; printed there with three digits, here as they follow from the normal distribution.</remarks>
public static class ControlChartConstants
{
    /// <summary>d₂ for two values: 2/√π = 1.128379, the mean range of two in standard deviations.</summary>
    public const double MeanRangeOfTwo = 1.1283791670955126;

    /// <summary>D₄ for two values: 1 + 3·d₃/d₂ = 3.266532, the upper limit of a moving range in mean ranges.</summary>
    public const double UpperRangeFactorOfTwo = 3.2665319;

    private static readonly double[] MeanRanges = [1.128379, 1.692569, 2.058751, 2.325929, 2.534413, 2.704357, 2.847201, 2.970026, 3.077505];

    /// <summary>d₂: the mean range of n normal values in standard deviations, to six digits.</summary>
    /// <param name="count">n, in [2, 10].</param>
    /// <returns>d₂.</returns>
    /// <exception cref="ArgumentOutOfRangeException">n lies outside its range.</exception>
    public static double MeanRange(int count) => MeanRanges[EvidenceInput.Count(count, 2, 10) - 2];

    /// <summary>c₄ = √(2/(n − 1))·Γ(n/2)/Γ((n − 1)/2): the mean standard deviation of n normal values in true ones.</summary>
    /// <param name="count">n, in [2, 1 000 000].</param>
    /// <returns>c₄, in (0.79, 1).</returns>
    /// <exception cref="ArgumentOutOfRangeException">n lies outside its range.</exception>
    public static double MeanDeviation(int count)
    {
        double n = EvidenceInput.Count(count, 2, 1_000_000);
        return Math.Sqrt(2 / (n - 1)) * Math.Exp(SpecialFunctions.GammaLn(n / 2) - SpecialFunctions.GammaLn((n - 1) / 2));
    }
}
