namespace ClimateGuard.Evidence;

/// <summary>The t test of two means whose spreads may differ.</summary>
public static class WelchTest
{
    /// <summary>t = (m₁ − m₂)/√(s₁²/n₁ + s₂²/n₂) with the degrees of freedom of Welch and Satterthwaite.</summary>
    /// <remarks>Welch, Biometrika 34 (1947) 28 (from memory).</remarks>
    /// <param name="first">Two values or more, finite.</param>
    /// <param name="second">Two values or more, finite.</param>
    /// <param name="alternative">Greater: the mean of the first is larger.</param>
    /// <param name="confidence">Of the interval of the difference, in (0, 1).</param>
    /// <returns>The difference of means with its interval, t, its degrees of freedom and p.</returns>
    /// <exception cref="ArgumentException">A sample holds fewer than two values, or neither has any spread.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number, or the confidence lies outside (0, 1).</exception>
    public static MeanDifference Test(
        IReadOnlyList<double> first,
        IReadOnlyList<double> second,
        Alternative alternative = Alternative.TwoSided,
        double confidence = 0.95)
    {
        EvidenceInput.Share(confidence);
        var (one, two) = (Univariate.Moments(first), Univariate.Moments(second));
        double a = one.StandardDeviation * one.StandardDeviation / one.Count, b = two.StandardDeviation * two.StandardDeviation / two.Count;
        if (a + b == 0) throw new ArgumentException("Neither sample has any spread, so the means cannot be tested.", nameof(first));
        var freedom = (a + b) * (a + b) / ((a * a / (one.Count - 1)) + (b * b / (two.Count - 1)));
        var difference = one.Mean - two.Mean;
        var t = difference / Math.Sqrt(a + b);
        var half = Thermal.CoverageFactor.TwoSided(confidence, freedom) * Math.Sqrt(a + b);
        return new MeanDifference(difference, Interval.Around(difference, half), t, freedom, Tail.Student(t, freedom, alternative));
    }
}

/// <summary>The difference of two means; equality is by value.</summary>
/// <param name="Difference">First minus second, in the unit of the values.</param>
/// <param name="Interval">Of the difference at the confidence asked.</param>
/// <param name="T">The test statistic.</param>
/// <param name="DegreesOfFreedom">Of t, one or more.</param>
/// <param name="PValue">For the alternative asked, in [0, 1].</param>
public sealed record MeanDifference(double Difference, Interval Interval, double T, double DegreesOfFreedom, double PValue);
