namespace ClimateGuard.Evidence;

/// <summary>What is left of many tests once it is counted how many things were looked at.</summary>
public static class MultipleTesting
{
    /// <summary>Benjamini–Hochberg: of what is kept, a share q at most is expected to be false.</summary>
    /// <remarks>Benjamini and Hochberg, JRSS B 57 (1995) 289; for independent or positively dependent tests.</remarks>
    /// <param name="pValues">One or more, each in [0, 1].</param>
    /// <param name="level">q, in (0, 1); 0.10 for exploration.</param>
    /// <returns>Adjusted p in the order given, and which are kept.</returns>
    /// <exception cref="ArgumentException">There is no p.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A p lies outside [0, 1], or the level outside (0, 1).</exception>
    public static MultipleTestingResult BenjaminiHochberg(IReadOnlyList<double> pValues, double level = 0.10) =>
        StepUp(pValues, level, 1);

    /// <summary>Benjamini–Yekutieli: as Benjamini–Hochberg, for tests that depend on each other in any way.</summary>
    /// <remarks>Benjamini and Yekutieli, Annals of Statistics 29 (2001) 1165 (from memory): q divided by Σ1/i.</remarks>
    /// <param name="pValues">One or more, each in [0, 1].</param>
    /// <param name="level">q, in (0, 1).</param>
    /// <returns>Adjusted p in the order given, and which are kept.</returns>
    /// <exception cref="ArgumentException">There is no p.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A p lies outside [0, 1], or the level outside (0, 1).</exception>
    public static MultipleTestingResult BenjaminiYekutieli(IReadOnlyList<double> pValues, double level = 0.10)
    {
        ArgumentNullException.ThrowIfNull(pValues);
        return StepUp(pValues, level, Enumerable.Range(1, Math.Max(1, pValues.Count)).Sum(i => 1.0 / i));
    }

    /// <summary>Holm: the probability of one false finding among all is the level at most.</summary>
    /// <remarks>Holm, Scandinavian Journal of Statistics 6 (1979) 65 (from memory); for tests that depend in any way.</remarks>
    /// <param name="pValues">One or more, each in [0, 1].</param>
    /// <param name="level">In (0, 1).</param>
    /// <returns>Adjusted p in the order given, and which are kept.</returns>
    /// <exception cref="ArgumentException">There is no p.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A p lies outside [0, 1], or the level outside (0, 1).</exception>
    public static MultipleTestingResult Holm(IReadOnlyList<double> pValues, double level = 0.05)
    {
        var order = Order(pValues, level);
        var adjusted = new double[order.Length];
        var running = 0.0;
        for (var i = 0; i < order.Length; i++)
        {
            running = Math.Max(running, Math.Min(1, (order.Length - i) * pValues[order[i]]));
            adjusted[order[i]] = running;
        }

        return Result(adjusted, level);
    }

    private static MultipleTestingResult StepUp(IReadOnlyList<double> pValues, double level, double penalty)
    {
        var order = Order(pValues, level);
        var adjusted = new double[order.Length];
        var running = 1.0;
        for (var i = order.Length - 1; i >= 0; i--)
        {
            running = Math.Min(running, penalty * order.Length / (i + 1) * pValues[order[i]]);
            adjusted[order[i]] = running;
        }

        return Result(adjusted, level);
    }

    private static int[] Order(IReadOnlyList<double> pValues, double level)
    {
        EvidenceInput.Sample(pValues, 1);
        EvidenceInput.Share(level);
        foreach (var p in pValues)
        {
            if (p is < 0 or > 1) throw new ArgumentOutOfRangeException(nameof(pValues), p, "Every p must lie in [0, 1].");
        }

        return [.. Enumerable.Range(0, pValues.Count).OrderBy(i => pValues[i])];
    }

    private static MultipleTestingResult Result(double[] adjusted, double level) =>
        new(adjusted, [.. adjusted.Select(p => p <= level)], adjusted.Length);
}

/// <summary>Tests after counting how many there were; equality is that of the references of the lists.</summary>
/// <param name="Adjusted">Adjusted p of each test, in the order given, in [0, 1].</param>
/// <param name="Kept">Whether each test is kept at the level asked.</param>
/// <param name="LookedAt">The number of things looked at, which a report must name.</param>
public sealed record MultipleTestingResult(IReadOnlyList<double> Adjusted, IReadOnlyList<bool> Kept, int LookedAt);
