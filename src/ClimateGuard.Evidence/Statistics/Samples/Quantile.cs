namespace ClimateGuard.Evidence;

/// <summary>The nine ways to read a quantile off a sample.</summary>
/// <remarks>Hyndman and Fan, The American Statistician 50 (1996) 361. Where no type is named, this project uses type 7.</remarks>
public enum QuantileType
{
    /// <summary>Type 1: the inverse of the empirical distribution.</summary>
    InverseOfDistribution = 1,

    /// <summary>Type 2: as type 1 with averaging where it jumps.</summary>
    AveragedInverse = 2,

    /// <summary>Type 3: the nearest observation, the even one where two are as near.</summary>
    NearestEven = 3,

    /// <summary>Type 4: linear in the empirical distribution.</summary>
    LinearInDistribution = 4,

    /// <summary>Type 5: the middles of the steps, common in hydrology.</summary>
    MiddleOfSteps = 5,

    /// <summary>Type 6: p = k/(n + 1), common in quality and test practice.</summary>
    ExpectedRank = 6,

    /// <summary>Type 7: p = (k − 1)/(n − 1), the one of spreadsheets.</summary>
    ModeOfRank = 7,

    /// <summary>Type 8: approximately unbiased for the median of each order statistic.</summary>
    MedianUnbiased = 8,

    /// <summary>Type 9: approximately unbiased for normal values.</summary>
    NormalUnbiased = 9,
}

/// <summary>Quantiles of a sample.</summary>
public static class Quantile
{
    // As wide as R allows for rounding in n·p (R, quantile.default: 4 units of the last place).
    private const double Fuzz = 4 * 2.220446049250313e-16;

    /// <summary>The value below which the share p of the sample lies.</summary>
    /// <param name="values">One value or more in any order, finite.</param>
    /// <param name="probability">p, in [0, 1].</param>
    /// <param name="type">The way of reading between observations.</param>
    /// <returns>The quantile, in the unit of the values, within their range.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, p lies outside [0, 1], or the type is none of the nine.</exception>
    public static double Of(IReadOnlyList<double> values, double probability, QuantileType type = QuantileType.ModeOfRank)
    {
        EvidenceInput.Sample(values, 1);
        if (probability is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "probability must lie in [0, 1].");
        var sorted = values.ToArray();
        Array.Sort(sorted);
        return OfSorted(sorted, probability, type);
    }

    internal static double OfSorted(double[] sorted, double probability, QuantileType type)
    {
        var (a, b) = PlottingPosition(type);
        var position = type <= QuantileType.NearestEven
            ? (sorted.Length * probability) - (type == QuantileType.NearestEven ? 0.5 : 0)
            : a + (probability * (sorted.Length + 1 - a - b));
        var below = (int)Math.Floor(position + Fuzz);
        var weight = position - below;
        if (Math.Abs(weight) < Fuzz * Math.Max(1, position)) weight = 0;
        weight = type switch
        {
            QuantileType.InverseOfDistribution => weight > 0 ? 1 : 0,
            QuantileType.AveragedInverse => weight > 0 ? 1 : 0.5,
            QuantileType.NearestEven => weight == 0 && below % 2 == 0 ? 0 : 1,
            _ => weight,
        };
        var low = sorted[Math.Clamp(below - 1, 0, sorted.Length - 1)];
        var high = sorted[Math.Clamp(below, 0, sorted.Length - 1)];
        return low + (weight * (high - low));
    }

    private static (double A, double B) PlottingPosition(QuantileType type) => type switch
    {
        >= QuantileType.InverseOfDistribution and <= QuantileType.NearestEven => (0, 0),
        QuantileType.LinearInDistribution => (0, 1),
        QuantileType.MiddleOfSteps => (0.5, 0.5),
        QuantileType.ExpectedRank => (0, 0),
        QuantileType.ModeOfRank => (1, 1),
        QuantileType.MedianUnbiased => (1.0 / 3, 1.0 / 3),
        QuantileType.NormalUnbiased => (3.0 / 8, 3.0 / 8),
        _ => throw new ArgumentOutOfRangeException(nameof(type), type, "type must be one of the nine of Hyndman and Fan."),
    };
}
