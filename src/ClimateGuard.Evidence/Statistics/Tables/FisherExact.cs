namespace ClimateGuard.Evidence;

/// <summary>Fisher's exact test of a table with fixed margins, with mid-p and the conditional odds ratio.</summary>
/// <remarks>
/// Fisher, The Design of Experiments, 1935. Two-sided p sums the tables that are no more probable than the one seen (equal within 1e-7,
/// as R does); mid-p counts those exactly as probable by half (Lancaster, JASA 56 (1961) 223, from memory). Conditional odds ratio and
/// interval from the non-central hypergeometric distribution.
/// </remarks>
public static class FisherExact
{
    // Tables as probable as the one seen must count though their logarithms round differently.
    private const double AsProbable = 1 + 1e-7;

    /// <summary>The test.</summary>
    /// <param name="table">Counts of 0 to 1 million.</param>
    /// <param name="alternative">Greater: exposed parts are more often bad.</param>
    /// <returns>p and mid-p; both 1 where a margin is empty and nothing can be said.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count lies outside its range.</exception>
    public static FisherResult Test(TwoByTwo table, Alternative alternative = Alternative.TwoSided)
    {
        ArgumentNullException.ThrowIfNull(table);
        var margins = new ConditionalTable(table.Checked());
        if (margins.Low == margins.High) return new FisherResult(1, 1);
        var shares = margins.Shares(0);
        var seen = table.ExposedBad - margins.Low;
        var (beyond, equal) = alternative switch
        {
            Alternative.Greater => (shares.Skip(seen + 1).Sum(), shares[seen]),
            Alternative.Less => (shares.Take(seen).Sum(), shares[seen]),
            _ => (
                shares.Where(share => share * AsProbable < shares[seen]).Sum(),
                shares.Where(share => share * AsProbable >= shares[seen] && share <= shares[seen] * AsProbable).Sum()),
        };
        return new FisherResult(Math.Min(1, beyond + equal), Math.Min(1, beyond + (equal / 2)));
    }

    /// <summary>The conditional maximum-likelihood odds ratio with its exact interval.</summary>
    /// <remarks>Cornfield, 1956, from memory. With a zero cell the ratio is 0 or infinite and one end of the interval with it.</remarks>
    /// <param name="table">Counts of 0 to 1 million.</param>
    /// <param name="alternative">TwoSided gives both ends; Less only an upper end, Greater only a lower one, each at the full confidence.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>Ratio and interval, in [0, ∞]; ratio 1 with the interval [0, ∞] where a margin is empty.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static RatioEstimate ConditionalOddsRatio(TwoByTwo table, Alternative alternative = Alternative.TwoSided, double confidence = 0.95)
    {
        ArgumentNullException.ThrowIfNull(table);
        EvidenceInput.Share(confidence);
        var margins = new ConditionalTable(table.Checked());
        if (margins.Low == margins.High) return new RatioEstimate(1, new Interval(0, double.PositiveInfinity));
        var a = table.ExposedBad;
        var tail = alternative == Alternative.TwoSided ? (1 - confidence) / 2 : 1 - confidence;
        var low = alternative == Alternative.Less || a == margins.Low ? 0 : Math.Exp(Solve(odds => margins.AtLeast(a, odds) - tail));
        var high = alternative == Alternative.Greater || a == margins.High
            ? double.PositiveInfinity
            : Math.Exp(Solve(odds => tail - margins.AtMost(a, odds)));
        var ratio = a == margins.Low ? 0 : a == margins.High ? double.PositiveInfinity : Math.Exp(Solve(odds => margins.Mean(odds) - a));
        return new RatioEstimate(ratio, new Interval(low, high));
    }

    // Log odds of ±80 are beyond what a million counts can reach.
    private static double Solve(Func<double, double> rising) => MonotoneRoot.Find(rising, -80, 80);
}

/// <summary>What Fisher's test found; equality is by value.</summary>
/// <param name="PValue">The exact p, in [0, 1].</param>
/// <param name="MidP">p with tables as extreme as the one seen counted by half: not conservative on average.</param>
public sealed record FisherResult(double PValue, double MidP);

/// <summary>A ratio with its interval; equality is by value.</summary>
/// <param name="Ratio">In [0, ∞].</param>
/// <param name="Interval">At the confidence asked, in [0, ∞].</param>
public sealed record RatioEstimate(double Ratio, Interval Interval);
