using ClimateGuard.Thermal;
using MathNet.Numerics;

namespace ClimateGuard.Evidence;

/// <summary>Capability of a position: never negative, one limit, not normal.</summary>
/// <remarks>
/// Percentile method, Ppk = (U − X₅₀)/(X₉₉.₈₆₅ − X₅₀), as ISO 22514-2 (from memory). |d| of a centred normal scatter in two axes follows
/// Rayleigh's distribution, of a shifted one Rice's; treating it as normal flatters or slanders by tens of percent.
/// </remarks>
public static class PositionCapability
{
    private const double UpperPercentile = 0.99865;

    /// <summary>From hole vectors: the mean shift and the scatter per axis, pooled over both axes.</summary>
    /// <remarks>
    /// The interval takes scatter and shift at their own ends at once, so it covers at least what it says. Axes of very different
    /// scatter are pooled and the result is then an approximation.
    /// </remarks>
    /// <param name="dx">Deviations along the first axis, in mm or µm; three or more, not all equal in both axes.</param>
    /// <param name="dy">Along the second axis, as many, in the same unit.</param>
    /// <param name="zoneDiameter">The tolerance, diametral, in the same unit, above 0.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>Percentiles of the diametral position and the index with its interval.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short, or show no scatter.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static PositionCapabilityResult OfVectors(
        IReadOnlyList<double> dx, IReadOnlyList<double> dy, double zoneDiameter, double confidence = 0.95)
    {
        EvidenceInput.Sample(dx, 3);
        EvidenceInput.Sample(dy, 3);
        EvidenceInput.SameLength(dx.Count, dy.Count, nameof(dx), nameof(dy));
        EvidenceInput.Positive(zoneDiameter);
        EvidenceInput.Share(confidence);
        double meanX = Univariate.CentralMean(dx), meanY = Univariate.CentralMean(dy);
        double freedom = 2 * (dx.Count - 1);
        var variance = (Univariate.SumOfSquares(dx, meanX) + Univariate.SumOfSquares(dy, meanY)) / freedom;
        if (!(variance > 0)) throw new ArgumentException("The holes show no scatter; the spread that a capability divides by is unknown.", nameof(dx));
        double scatter = Math.Sqrt(variance), shift = double.Hypot(meanX, meanY);
        var (median, percentile) = Percentiles(shift, scatter);
        var slack = CoverageFactor.TwoSided(confidence) * scatter / Math.Sqrt(dx.Count);
        var wide = Math.Sqrt(variance * freedom / Tail.ChiSquareQuantile((1 - confidence) / 2, freedom));
        var narrow = Math.Sqrt(variance * freedom / Tail.ChiSquareQuantile((1 + confidence) / 2, freedom));
        var interval = new Interval(
            Index(zoneDiameter, Percentiles(shift + slack, wide)), Index(zoneDiameter, Percentiles(Math.Max(0, shift - slack), narrow)));
        return new PositionCapabilityResult(shift, scatter, median, percentile, Index(zoneDiameter, (median, percentile)), interval);
    }

    /// <summary>From diametral positions alone: a scatter centred on the true place is assumed (Rayleigh).</summary>
    /// <remarks>Without vectors a shift cannot be told from scatter; the ratio of mean to root mean square shows how far off that is.</remarks>
    /// <param name="positions">Diametral, three or more, 0 or more each, not all 0.</param>
    /// <param name="zoneDiameter">The tolerance, diametral, in the same unit, above 0.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <returns>Percentiles and the index with its interval; the shift is 0.</returns>
    /// <exception cref="ArgumentException">There are too few values, or all are 0.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static PositionCapabilityResult OfPositions(IReadOnlyList<double> positions, double zoneDiameter, double confidence = 0.95)
    {
        EvidenceInput.Sample(positions, 3);
        EvidenceInput.Positive(zoneDiameter);
        EvidenceInput.Share(confidence);
        foreach (var position in positions) EvidenceInput.NotNegative(position, nameof(positions));
        double freedom = 2 * positions.Count;
        // |d| = position/2, and the mean of |d|² is 2σ².
        var variance = positions.Sum(position => position * position) / 4 / freedom;
        if (variance == 0) throw new ArgumentException("All positions are 0; the spread that a capability divides by is unknown.", nameof(positions));
        double At(double cumulative) => Index(zoneDiameter, Percentiles(0, Math.Sqrt(variance * freedom / Tail.ChiSquareQuantile(cumulative, freedom))));
        var (median, percentile) = Percentiles(0, Math.Sqrt(variance));
        return new PositionCapabilityResult(
            0, Math.Sqrt(variance), median, percentile, Index(zoneDiameter, (median, percentile)), new Interval(At((1 - confidence) / 2), At((1 + confidence) / 2)));
    }

    /// <summary>The value of |d| below which a share lies, for a scatter per axis about a shift: Rice's distribution.</summary>
    /// <param name="probability">In (0, 1).</param>
    /// <param name="shift">Distance of the mean from the true place, 0 or more; 0 gives Rayleigh's distribution.</param>
    /// <param name="scatter">Standard deviation per axis, above 0, at least a thousandth of the shift.</param>
    /// <returns>The quantile, in the unit of both.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double RadialQuantile(double probability, double shift, double scatter)
    {
        EvidenceInput.Share(probability);
        EvidenceInput.NotNegative(shift);
        EvidenceInput.Positive(scatter);
        if (shift > 1000 * scatter)
            throw new ArgumentOutOfRangeException(nameof(scatter), scatter, "scatter must be a thousandth of the shift or more.");
        // A shift this small beside the scatter moves no digit of the quantile.
        if (shift < 1e-8 * scatter) return scatter * Math.Sqrt(-2 * Math.Log(1 - probability));
        var ratio = shift / scatter;
        return scatter * MonotoneRoot.Find(r => RadialCdf(r, ratio) - probability, Math.Max(0, ratio - 40), ratio + 40);
    }

    /// <summary>P(|d| ≤ r) for scatter 1: a Poisson mixture of χ² with even degrees of freedom (Johnson and Kotz, from memory).</summary>
    private static double RadialCdf(double r, double shift)
    {
        double mean = shift * shift / 2, half = r * r / 2, sum = 0;
        var spread = 12 * (Math.Sqrt(mean) + 3);
        for (var j = (int)Math.Max(0, mean - spread); j <= mean + spread; j++)
        {
            var weight = Math.Exp((j * Math.Log(mean)) - mean - SpecialFunctions.GammaLn(j + 1.0));
            if (weight > 1e-18) sum += weight * SpecialFunctions.GammaLowerRegularized(j + 1, half);
        }

        return sum;
    }

    private static (double Median, double Percentile) Percentiles(double shift, double scatter) =>
        (2 * RadialQuantile(0.5, shift, scatter), 2 * RadialQuantile(UpperPercentile, shift, scatter));

    private static double Index(double zone, (double Median, double Percentile) p) => (zone - p.Median) / (p.Percentile - p.Median);
}

/// <summary>Capability of a position; equality is by value.</summary>
/// <param name="Shift">Distance of the mean from the true place, in the unit of the vectors; 0 where only positions are known.</param>
/// <param name="ScatterPerAxis">Standard deviation per axis, pooled.</param>
/// <param name="Median">X₅₀ of the diametral position.</param>
/// <param name="UpperPercentile">X₉₉.₈₆₅ of the diametral position.</param>
/// <param name="Ppk">(U − X₅₀)/(X₉₉.₈₆₅ − X₅₀).</param>
/// <param name="PpkInterval">At the confidence asked or wider.</param>
public sealed record PositionCapabilityResult(
    double Shift, double ScatterPerAxis, double Median, double UpperPercentile, double Ppk, Interval PpkInterval);
