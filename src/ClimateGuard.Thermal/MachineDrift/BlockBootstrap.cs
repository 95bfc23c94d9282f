namespace ClimateGuard.Thermal;

/// <summary>Resampling of a series in blocks, so that what belongs together in time stays together.</summary>
/// <remarks>
/// The circular block bootstrap of Politis and Romano (1992): blocks of one length begin anywhere, and a block that runs over the end
/// goes on at the beginning, so that every value is drawn with the same chance.
/// </remarks>
public static class BlockBootstrap
{
    /// <summary>Fills a series with blocks drawn from another.</summary>
    /// <param name="values">The series to draw from; at least one value.</param>
    /// <param name="blockLength">Values in a block, in [1, the length of <paramref name="values"/>].</param>
    /// <param name="random">Seeded chance.</param>
    /// <param name="resampled">Receives as many values as it holds.</param>
    /// <exception cref="ArgumentOutOfRangeException">The block length lies outside its range, or there is nothing to draw from.</exception>
    public static void Resample(ReadOnlySpan<double> values, int blockLength, Random random, Span<double> resampled)
    {
        ArgumentNullException.ThrowIfNull(random);
        ArgumentOutOfRangeException.ThrowIfLessThan(blockLength, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(blockLength, values.Length);
        var from = 0;
        for (var i = 0; i < resampled.Length; i++)
        {
            from = i % blockLength == 0 ? random.Next(values.Length) : (from + 1) % values.Length;
            resampled[i] = values[from];
        }
    }

    /// <summary>The range that holds a share of the values, cut equally at both ends.</summary>
    /// <param name="values">The replicates; at least one.</param>
    /// <param name="share">The share, in (0, 1), such as 0.95.</param>
    /// <returns>The two percentiles, straight between neighbours.</returns>
    /// <exception cref="ArgumentException">There are no values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The share lies outside its range.</exception>
    public static DriftInterval Percentiles(IReadOnlyCollection<double> values, double share)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(share, 0.0);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(share, 1.0);
        if (values.Count == 0)
        {
            throw new ArgumentException("There are no replicates to take percentiles of.", nameof(values));
        }

        double[] sorted = [.. values.Order()];
        var tail = (1.0 - share) / 2.0;
        return new DriftInterval(At(sorted, tail), At(sorted, 1.0 - tail));
    }

    private static double At(double[] sorted, double share)
    {
        var place = share * (sorted.Length - 1);
        var below = (int)place;
        var above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((place - below) * (sorted[above] - sorted[below]));
    }
}
