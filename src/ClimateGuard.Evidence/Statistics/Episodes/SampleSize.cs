namespace ClimateGuard.Evidence;

/// <summary>How many parts a question needs before it can be answered.</summary>
public static class SampleSize
{
    private const int Most = 1_000_000;

    /// <summary>n = (σ/(sₓ·SE))²: values needed for a slope of a standard error.</summary>
    /// <remarks>From the standard error of a slope, σ/(sₓ·√n). Excitation beats count: twice the spread of x saves three quarters.</remarks>
    /// <param name="scatter">σ of the outcome about the line, above 0.</param>
    /// <param name="spreadOfExposure">sₓ, standard deviation of the prediction, in the same unit, above 0.</param>
    /// <param name="standardError">SE of the slope wanted, above 0.</param>
    /// <returns>The number of independent values, 3 or more, rounded up.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or more than 10⁹ would be needed.</exception>
    public static int ForSlope(double scatter, double spreadOfExposure, double standardError)
    {
        var root = EvidenceInput.Positive(scatter) / EvidenceInput.Positive(spreadOfExposure) / EvidenceInput.Positive(standardError);
        if (root > 31_622) throw new ArgumentOutOfRangeException(nameof(standardError), standardError, "More than 10⁹ values would be needed.");
        // A ratio such as 1.5/0.15 must give 100 and not 101.
        return Math.Max(3, (int)Math.Ceiling((root * root) - 1e-9));
    }

    /// <summary>Exposed parts needed to see a raised rate against a well-known base rate.</summary>
    /// <remarks>
    /// The smallest n at which the exact one-sided binomial test has the power. Exact power is a saw-tooth, so a few slightly larger n may
    /// fall just short of it again.
    /// </remarks>
    /// <param name="baseRate">In (0, 1).</param>
    /// <param name="raisedRate">In (base rate, 1).</param>
    /// <param name="power">In (0, 1).</param>
    /// <param name="level">Of the one-sided test, in (0, 1).</param>
    /// <returns>The number of independent parts.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or more than a million would be needed.</exception>
    public static int ForRaisedRate(double baseRate, double raisedRate, double power = 0.8, double level = 0.05)
    {
        EvidenceInput.Share(baseRate);
        EvidenceInput.Share(power);
        EvidenceInput.Share(level);
        if (!(raisedRate > baseRate && raisedRate < 1))
            throw new ArgumentOutOfRangeException(nameof(raisedRate), raisedRate, FormattableString.Invariant($"raisedRate must lie between {baseRate} and 1."));
        var critical = 1;
        for (var n = 1; n <= Most; n++)
        {
            // The critical count never falls as n grows, so each n goes on from the last.
            while (Tail.BinomialAtLeast(critical, n, baseRate) > level) critical++;
            if (critical <= n && Tail.BinomialAtLeast(critical, n, raisedRate) >= power) return n;
        }

        throw new ArgumentOutOfRangeException(nameof(raisedRate), raisedRate, $"More than {Most} parts would be needed.");
    }

    /// <summary>Parts needed to exclude a share of bad ones, when so many were bad among them.</summary>
    /// <remarks>The smallest n at which the exact binomial test of the share has the level: P(X ≤ bad | n, share) ≤ level.</remarks>
    /// <param name="share">The share to be excluded, in (0, 1).</param>
    /// <param name="bad">Bad ones among them, 0 or more.</param>
    /// <param name="level">One less the confidence, in (0, 1).</param>
    /// <returns>The number of independent parts.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or more than a million would be needed.</exception>
    public static int ForLargestShare(double share, int bad, double level = 0.05)
    {
        EvidenceInput.Share(share);
        EvidenceInput.Share(level);
        EvidenceInput.Count(bad, 0, Most);
        int low = bad, high = Most;
        if (Tail.BinomialAtMost(bad, high, share) > level) throw new ArgumentOutOfRangeException(nameof(share), share, $"More than {Most} parts would be needed.");
        while (high - low > 1)
        {
            var middle = low + ((high - low) / 2);
            if (Tail.BinomialAtMost(bad, middle, share) <= level) high = middle;
            else low = middle;
        }

        return high;
    }
}
