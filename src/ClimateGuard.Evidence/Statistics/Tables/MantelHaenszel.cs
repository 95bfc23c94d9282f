using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>One odds ratio over strata such as machines or parts, so that a difference between strata is not taken for the exposure.</summary>
/// <remarks>
/// Mantel and Haenszel, JNCI 22 (1959) 719; variance of Robins, Breslow and Greenland, Biometrics 42 (1986) 311; heterogeneity by Woolf
/// with 0.5 added to every cell (all from memory, as R mantelhaen.test and its example compute them).
/// </remarks>
public static class MantelHaenszel
{
    /// <summary>The common odds ratio, its test, and whether the strata agree.</summary>
    /// <param name="strata">One table or more; strata with an empty margin say nothing and are left out.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <param name="continuity">False leaves out the correction of one half in the test.</param>
    /// <returns>The result, or one that says that no stratum informs.</returns>
    /// <exception cref="ArgumentException">There is no stratum.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static StratifiedResult Of(IReadOnlyList<TwoByTwo> strata, double confidence = 0.95, bool continuity = true)
    {
        ArgumentNullException.ThrowIfNull(strata);
        EvidenceInput.Share(confidence);
        if (strata.Count == 0) throw new ArgumentException("One stratum or more is needed; none was given.", nameof(strata));
        TwoByTwo[] used = [.. strata.Where(s => s.Checked() is { Exposed: > 0, Other: > 0, Bad: > 0 } && s.Bad < s.Total)];
        if (used.Length == 0) return new StratifiedResult(1, new Interval(0, double.PositiveInfinity), new(0, 1, 1), new(0, 0, 1), 0);
        var (ratio, interval) = CommonRatio(used, confidence);
        return new StratifiedResult(ratio, interval, Test(used, continuity), Heterogeneity(used), used.Length);
    }

    private static (double Ratio, Interval Interval) CommonRatio(TwoByTwo[] strata, double confidence)
    {
        double r = 0, s = 0, pr = 0, mixed = 0, qs = 0;
        foreach (var t in strata)
        {
            double n = t.Total, ri = (double)t.ExposedBad * t.OtherGood / n, si = (double)t.ExposedGood * t.OtherBad / n;
            double p = ((double)t.ExposedBad + t.OtherGood) / n, q = ((double)t.ExposedGood + t.OtherBad) / n;
            r += ri;
            s += si;
            pr += p * ri;
            mixed += (p * si) + (q * ri);
            qs += q * si;
        }

        if (r == 0 || s == 0) return (r == 0 ? 0 : double.PositiveInfinity, new Interval(0, double.PositiveInfinity));
        var variance = (pr / (2 * r * r)) + (mixed / (2 * r * s)) + (qs / (2 * s * s));
        var spread = Math.Exp(CoverageFactor.TwoSided(confidence) * Math.Sqrt(variance));
        return (r / s, new Interval(r / s / spread, r / s * spread));
    }

    private static ChiSquareResult Test(TwoByTwo[] strata, bool continuity)
    {
        double difference = 0, variance = 0;
        foreach (var t in strata)
        {
            double n = t.Total, exposed = t.Exposed, bad = t.Bad;
            difference += t.ExposedBad - (exposed * bad / n);
            variance += n > 1 ? exposed * t.Other * bad * (n - bad) / (n * n * (n - 1)) : 0;
        }

        var correction = continuity && Math.Abs(difference) >= 0.5 ? 0.5 : 0;
        var distance = Math.Abs(difference) - correction;
        var statistic = variance > 0 ? distance * distance / variance : 0;
        return new ChiSquareResult(statistic, 1, Tail.ChiSquare(statistic, 1));
    }

    private static ChiSquareResult Heterogeneity(TwoByTwo[] strata)
    {
        double[] logs = new double[strata.Length], weights = new double[strata.Length];
        for (var i = 0; i < strata.Length; i++)
        {
            var t = strata[i];
            double a = t.ExposedBad + 0.5, b = t.ExposedGood + 0.5, c = t.OtherBad + 0.5, d = t.OtherGood + 0.5;
            logs[i] = Math.Log(a * d / (b * c));
            weights[i] = 1 / ((1 / a) + (1 / b) + (1 / c) + (1 / d));
        }

        var mean = logs.Zip(weights, (log, weight) => log * weight).Sum() / weights.Sum();
        var statistic = logs.Zip(weights, (log, weight) => weight * (log - mean) * (log - mean)).Sum();
        var freedom = strata.Length - 1;
        return new ChiSquareResult(statistic, freedom, freedom == 0 ? 1 : Tail.ChiSquare(statistic, freedom));
    }
}

/// <summary>A common odds ratio over strata; equality is by value.</summary>
/// <param name="OddsRatio">In [0, ∞]; 1 where no stratum informs.</param>
/// <param name="Interval">At the confidence asked; [0, ∞] where the ratio has no finite logarithm or no stratum informs.</param>
/// <param name="Association">The test of "no association in any stratum".</param>
/// <param name="Heterogeneity">The test of "the same odds ratio in every stratum"; a small p forbids quoting one ratio.</param>
/// <param name="InformativeStrata">How many strata took part.</param>
public sealed record StratifiedResult(
    double OddsRatio, Interval Interval, ChiSquareResult Association, ChiSquareResult Heterogeneity, int InformativeStrata);
