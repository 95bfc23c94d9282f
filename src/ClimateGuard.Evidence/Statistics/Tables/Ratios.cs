using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Odds and risk ratios of a table with intervals on the log scale.</summary>
/// <remarks>
/// A zero cell makes a ratio 0 or infinite and its log interval undefined; then, and only then, 0.5 is added to every cell (Haldane and
/// Anscombe, from memory) and the result says so.
/// </remarks>
public static class Ratios
{
    /// <summary>ad/(bc) with Woolf's interval exp(ln OR ± z·√(1/a + 1/b + 1/c + 1/d)).</summary>
    /// <remarks>Woolf, Annals of Human Genetics 19 (1955) 251 (from memory).</remarks>
    /// <param name="table">Counts of 0 to 1 million.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>The odds ratio with the standard error of its logarithm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static LogRatio Odds(TwoByTwo table, double confidence = 0.95)
    {
        var (a, b, c, d, corrected) = Cells(table);
        return LogRatio.Of(a * d / (b * c), Math.Sqrt((1 / a) + (1 / b) + (1 / c) + (1 / d)), corrected, confidence);
    }

    /// <summary>[a/(a + b)]/[c/(c + d)] with the interval exp(ln RR ± z·√(1/a − 1/(a + b) + 1/c − 1/(c + d))).</summary>
    /// <remarks>Katz, Baptista, Azen and Pike, Biometrics 34 (1978) 469 (from memory).</remarks>
    /// <param name="table">Counts of 0 to 1 million.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>The risk ratio with the standard error of its logarithm.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static LogRatio Risk(TwoByTwo table, double confidence = 0.95)
    {
        var (a, b, c, d, corrected) = Cells(table);
        var error = Math.Sqrt(Math.Max(0, (1 / a) - (1 / (a + b)) + (1 / c) - (1 / (c + d))));
        return LogRatio.Of(a / (a + b) / (c / (c + d)), error, corrected, confidence);
    }

    /// <summary>AF = 1 − 1/RR: the share of the exposed bad parts beyond what parts without exposure show.</summary>
    /// <remarks>Negative where exposed parts are better. A share of a group, never a probability that one part was spoiled by it.</remarks>
    /// <param name="table">Counts of 0 to 1 million.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>The fraction with the interval of the risk ratio carried over, and the bad parts expected had nothing been exposed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static AttributableFraction Attributable(TwoByTwo table, double confidence = 0.95)
    {
        var risk = Risk(table, confidence);
        var withoutExposure = table.Other == 0 ? table.Bad : (double)table.OtherBad / table.Other * table.Total;
        return new AttributableFraction(
            1 - (1 / risk.Ratio), new Interval(1 - (1 / risk.Interval.Low), 1 - (1 / risk.Interval.High)), withoutExposure, risk.ZeroCellCorrected);
    }

    private static (double A, double B, double C, double D, bool Corrected) Cells(TwoByTwo table)
    {
        ArgumentNullException.ThrowIfNull(table);
        table.Checked();
        var zero = table.ExposedBad == 0 || table.ExposedGood == 0 || table.OtherBad == 0 || table.OtherGood == 0;
        var add = zero ? 0.5 : 0;
        return (table.ExposedBad + add, table.ExposedGood + add, table.OtherBad + add, table.OtherGood + add, zero);
    }
}

/// <summary>A ratio whose logarithm is about normal; equality is by value.</summary>
/// <param name="Ratio">Above 0.</param>
/// <param name="LogStandardError">Standard error of its natural logarithm.</param>
/// <param name="Interval">At the confidence asked.</param>
/// <param name="ZeroCellCorrected">True when 0.5 was added to every cell because one was 0.</param>
public sealed record LogRatio(double Ratio, double LogStandardError, Interval Interval, bool ZeroCellCorrected)
{
    internal static LogRatio Of(double ratio, double error, bool corrected, double confidence)
    {
        var spread = Math.Exp(CoverageFactor.TwoSided(EvidenceInput.Share(confidence)) * error);
        return new LogRatio(ratio, error, new Interval(ratio / spread, ratio * spread), corrected);
    }
}

/// <summary>The share of bad parts among the exposed beyond the base rate; equality is by value.</summary>
/// <param name="Fraction">1 − 1/RR; negative where the exposed are better.</param>
/// <param name="Interval">At the confidence asked.</param>
/// <param name="BadExpectedWithoutExposure">Bad parts expected among all, had all been at the rate of those not exposed.</param>
/// <param name="ZeroCellCorrected">True when 0.5 was added to every cell of the ratio because one was 0.</param>
public sealed record AttributableFraction(double Fraction, Interval Interval, double BadExpectedWithoutExposure, bool ZeroCellCorrected);
