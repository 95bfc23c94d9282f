using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>Intervals of a share seen as a count out of trials.</summary>
public static class ProportionInterval
{
    /// <summary>Wilson's score interval: right on average, also near 0 and 1.</summary>
    /// <remarks>Wilson, JASA 22 (1927) 209; NIST/SEMATECH e-Handbook 7.2.4.1 (from memory).</remarks>
    /// <param name="successes">In [0, trials].</param>
    /// <param name="trials">One or more.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>The interval, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static Interval Wilson(int successes, int trials, double confidence = 0.95)
    {
        Check(successes, trials);
        var z = CoverageFactor.TwoSided(EvidenceInput.Share(confidence));
        double n = trials, p = successes / n, stretch = 1 + (z * z / n);
        var centre = (p + (z * z / (2 * n))) / stretch;
        var half = z / stretch * Math.Sqrt((p * (1 - p) / n) + (z * z / (4 * n * n)));
        return new Interval(successes == 0 ? 0 : Math.Max(0, centre - half), successes == trials ? 1 : Math.Min(1, centre + half));
    }

    /// <summary>The interval of Clopper and Pearson: never covers less than it says.</summary>
    /// <remarks>Clopper and Pearson, Biometrika 26 (1934) 404 (from memory).</remarks>
    /// <param name="successes">In [0, trials].</param>
    /// <param name="trials">One or more.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>The interval, in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range.</exception>
    public static Interval ClopperPearson(int successes, int trials, double confidence = 0.95)
    {
        Check(successes, trials);
        var tail = (1 - EvidenceInput.Share(confidence)) / 2;
        var low = successes == 0 ? 0 : MonotoneRoot.Find(p => Tail.BinomialAtLeast(successes, trials, p) - tail, 0, 1);
        var high = successes == trials ? 1 : MonotoneRoot.Find(p => tail - Tail.BinomialAtMost(successes, trials, p), 0, 1);
        return new Interval(low, high);
    }

    private static void Check(int successes, int trials)
    {
        EvidenceInput.Count(trials, 1, int.MaxValue);
        EvidenceInput.Count(successes, 0, trials);
    }
}
