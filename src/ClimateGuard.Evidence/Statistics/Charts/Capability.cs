using ClimateGuard.Thermal;

namespace ClimateGuard.Evidence;

/// <summary>How well values keep within their limits, as one number with an honest interval.</summary>
public static class Capability
{
    /// <summary>Pp and Ppk of values that are about normal, from their overall spread.</summary>
    /// <remarks>
    /// Pp = (U − L)/6s with an interval from χ²; Ppk = min(U − m, m − L)/3s with the interval Ppk ± z·√(1/(9n) + Ppk²/(2(n − 1)))
    /// (Bissell, Applied Statistics 39 (1990) 331; NIST/SEMATECH e-Handbook 6.1.6; from memory). n is the effective number where the
    /// values depend on each other, which widens the intervals.
    /// </remarks>
    /// <param name="values">Two or more, finite, not all equal.</param>
    /// <param name="lower">The lower limit, or null for none.</param>
    /// <param name="upper">The upper limit, or null for none; one of the two at least.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <param name="effectiveCount">The number of independent values they are worth, in [2, n]; null for all.</param>
    /// <returns>The indices with intervals.</returns>
    /// <exception cref="ArgumentException">There are too few values, they are all equal, or there is no limit or no room between limits.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static CapabilityResult OfNormal(
        IReadOnlyList<double> values, double? lower, double? upper, double confidence = 0.95, double? effectiveCount = null)
    {
        var moments = Univariate.Moments(values);
        return OfMoments(moments.Mean, moments.StandardDeviation, effectiveCount ?? values.Count, lower, upper, confidence);
    }

    internal static CapabilityResult OfMoments(double mean, double s, double n, double? lower, double? upper, double confidence)
    {
        if (lower is null && upper is null) throw new ArgumentException("A capability needs one limit at least.", nameof(upper));
        if (lower is { } l) EvidenceInput.Finite(l, nameof(lower));
        if (upper is { } u) EvidenceInput.Finite(u, nameof(upper));
        if (lower >= upper) throw new ArgumentException(FormattableString.Invariant($"The lower limit {lower} must be below the upper {upper}."), nameof(lower));
        if (!(n >= 2)) throw new ArgumentOutOfRangeException(nameof(n), n, "A capability needs an effective number of 2 or more values.");
        if (!(s > 0)) throw new ArgumentException("All values are equal; the spread that a capability divides by is unknown.", nameof(s));
        EvidenceInput.Share(confidence);
        var toUpper = upper is { } high ? (high - mean) / (3 * s) : double.PositiveInfinity;
        var toLower = lower is { } low ? (mean - low) / (3 * s) : double.PositiveInfinity;
        var ppk = Math.Min(toUpper, toLower);
        var half = CoverageFactor.TwoSided(confidence) * Math.Sqrt((1 / (9 * n)) + (ppk * ppk / (2 * (n - 1))));
        double? pp = upper - lower is { } width ? width / (6 * s) : null;
        Interval? interval = pp is { } index
            ? new Interval(
                index * Math.Sqrt(Tail.ChiSquareQuantile((1 - confidence) / 2, n - 1) / (n - 1)),
                index * Math.Sqrt(Tail.ChiSquareQuantile((1 + confidence) / 2, n - 1) / (n - 1)))
            : null;
        return new CapabilityResult(mean, s, pp, interval, ppk, Interval.Around(ppk, half));
    }
}

/// <summary>Capability of one characteristic; equality is by value.</summary>
/// <param name="Mean">In the unit of the values.</param>
/// <param name="StandardDeviation">Overall, in the unit of the values.</param>
/// <param name="Pp">Width over spread; null with one limit only.</param>
/// <param name="PpInterval">Of Pp at the confidence asked.</param>
/// <param name="Ppk">Room to the nearer limit over half of the spread; negative when the mean lies outside.</param>
/// <param name="PpkInterval">Of Ppk at the confidence asked.</param>
public sealed record CapabilityResult(
    double Mean, double StandardDeviation, double? Pp, Interval? PpInterval, double Ppk, Interval PpkInterval);
