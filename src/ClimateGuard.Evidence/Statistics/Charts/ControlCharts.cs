namespace ClimateGuard.Evidence;

/// <summary>Charts that tell a drift of deviations from their common scatter.</summary>
/// <remarks>Limits assume independent values; with autocorrelated ones (r₁ above about 0.3) they alarm too often.</remarks>
public static class ControlCharts
{
    /// <summary>Individuals and moving ranges: mean ± 3·(mean moving range)/d₂.</summary>
    /// <remarks>NIST/SEMATECH e-Handbook 6.3.2.2.</remarks>
    /// <param name="values">Two or more in the order of time, finite.</param>
    /// <param name="meanRangeDivisor">d₂; the handbook and most charts on paper round it to 1.128.</param>
    /// <param name="upperRangeFactor">D₄ of the moving ranges; 3.267 on paper.</param>
    /// <returns>Centre and limits of both charts, and the places of values beyond them.</returns>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static IndividualsChart Individuals(
        IReadOnlyList<double> values,
        double meanRangeDivisor = ControlChartConstants.MeanRangeOfTwo,
        double upperRangeFactor = ControlChartConstants.UpperRangeFactorOfTwo)
    {
        EvidenceInput.Sample(values, 2);
        EvidenceInput.Positive(meanRangeDivisor);
        EvidenceInput.Positive(upperRangeFactor);
        double[] ranges = [.. values.Skip(1).Select((value, i) => Math.Abs(value - values[i]))];
        double mean = Univariate.CentralMean(values), range = Univariate.CentralMean(ranges);
        var limits = Interval.Around(mean, 3 * range / meanRangeDivisor);
        var upper = upperRangeFactor * range;
        return new IndividualsChart(
            mean, limits, ranges, range, upper, Beyond(values, _ => limits), [.. Enumerable.Range(0, ranges.Length).Where(i => ranges[i] > upper).Select(i => i + 1)]);
    }

    /// <summary>Exponentially weighted moving average: zᵢ = λxᵢ + (1 − λ)zᵢ₋₁ from the target.</summary>
    /// <remarks>
    /// NIST/SEMATECH e-Handbook 6.3.2.4: limits target ± k·s·√(λ/(2 − λ)), or with the start-up factor √(1 − (1 − λ)^2i) that makes the
    /// first limits narrower.
    /// </remarks>
    /// <param name="values">One or more in the order of time, finite.</param>
    /// <param name="target">Where the average starts and the chart is centred.</param>
    /// <param name="standardDeviation">s of a single value, above 0.</param>
    /// <param name="weight">λ, in (0, 1]; 0.2 to 0.3 is common.</param>
    /// <param name="width">k, above 0; 3 is common.</param>
    /// <param name="startUp">True for limits that widen from the first value on.</param>
    /// <returns>The averages, their limits, and the places beyond them.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static EwmaChart Ewma(
        IReadOnlyList<double> values, double target, double standardDeviation, double weight = 0.3, double width = 3, bool startUp = false)
    {
        EvidenceInput.Sample(values, 1);
        EvidenceInput.Finite(target);
        EvidenceInput.Positive(standardDeviation);
        EvidenceInput.Positive(width);
        if (weight is not (> 0 and <= 1)) throw new ArgumentOutOfRangeException(nameof(weight), weight, "weight must lie in (0, 1].");
        var averages = new double[values.Count];
        var limits = new Interval[values.Count];
        var average = target;
        var final = width * standardDeviation * Math.Sqrt(weight / (2 - weight));
        for (var i = 0; i < values.Count; i++)
        {
            average += weight * (values[i] - average);
            averages[i] = average;
            limits[i] = Interval.Around(target, startUp ? final * Math.Sqrt(1 - Math.Pow(1 - weight, 2 * (i + 1))) : final);
        }

        return new EwmaChart(averages, limits, Beyond(averages, i => limits[i]));
    }

    /// <summary>Tabular cumulative sums: Sʰ = max(0, Sʰ + x − target − k), Sˡ = max(0, Sˡ + target − k − x), signal above h.</summary>
    /// <remarks>NIST/SEMATECH e-Handbook 6.3.2.3.</remarks>
    /// <param name="values">One or more in the order of time, finite.</param>
    /// <param name="target">The mean that holds without drift.</param>
    /// <param name="allowance">k, half of the shift to be found, in the unit of the values, 0 or more.</param>
    /// <param name="decision">h, in the unit of the values, above 0.</param>
    /// <returns>Both sums and the places of signals.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static CusumChart Cusum(IReadOnlyList<double> values, double target, double allowance, double decision)
    {
        EvidenceInput.Sample(values, 1);
        EvidenceInput.Finite(target);
        EvidenceInput.NotNegative(allowance);
        EvidenceInput.Positive(decision);
        double[] high = new double[values.Count], low = new double[values.Count];
        for (var i = 0; i < values.Count; i++)
        {
            high[i] = Math.Max(0, (i == 0 ? 0 : high[i - 1]) + values[i] - target - allowance);
            low[i] = Math.Max(0, (i == 0 ? 0 : low[i - 1]) + target - allowance - values[i]);
        }

        return new CusumChart(high, low, [.. Enumerable.Range(0, values.Count).Where(i => high[i] > decision || low[i] > decision)]);
    }

    private static int[] Beyond(IReadOnlyList<double> values, Func<int, Interval> limits) =>
        [.. Enumerable.Range(0, values.Count).Where(i => !limits(i).Contains(values[i]))];
}

/// <summary>Individuals and moving ranges; equality is that of the references of the lists.</summary>
/// <param name="Mean">The centre.</param>
/// <param name="Limits">Of single values.</param>
/// <param name="MovingRanges">From each value to the next, one fewer than values.</param>
/// <param name="MeanMovingRange">The centre of the ranges.</param>
/// <param name="UpperRangeLimit">Of a moving range.</param>
/// <param name="Beyond">Places of values beyond their limits, from 0.</param>
/// <param name="RangesBeyond">Places of values, from 0, that are too far from the one before.</param>
public sealed record IndividualsChart(
    double Mean,
    Interval Limits,
    IReadOnlyList<double> MovingRanges,
    double MeanMovingRange,
    double UpperRangeLimit,
    IReadOnlyList<int> Beyond,
    IReadOnlyList<int> RangesBeyond);

/// <summary>An exponentially weighted moving average; equality is that of the references of the lists.</summary>
/// <param name="Averages">One after each value.</param>
/// <param name="Limits">Of each average.</param>
/// <param name="Beyond">Places of averages beyond their limits, from 0.</param>
public sealed record EwmaChart(IReadOnlyList<double> Averages, IReadOnlyList<Interval> Limits, IReadOnlyList<int> Beyond);

/// <summary>Tabular cumulative sums; equality is that of the references of the lists.</summary>
/// <param name="High">The sum that finds a rise, after each value.</param>
/// <param name="Low">The sum that finds a fall, after each value.</param>
/// <param name="Signals">Places where one is above the decision value, from 0.</param>
public sealed record CusumChart(IReadOnlyList<double> High, IReadOnlyList<double> Low, IReadOnlyList<int> Signals);
