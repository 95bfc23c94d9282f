namespace ClimateGuard.Thermal;

/// <summary>What is known of one machine's and its part's temperatures and drift: a mean and a covariance.</summary>
/// <remarks>
/// A work area owned by one caller at a time: <see cref="ThermalModel"/> changes it in place so that a step costs no allocation, and
/// <see cref="Copy"/> makes an independent one. Not safe across threads. The meaning of each number is in <see cref="StateLayout"/>.
/// </remarks>
public sealed class ThermalState
{
    internal ThermalState(int count)
    {
        Mean = new double[count];
        Covariance = new double[count * count];
        Scratch = new double[count * count];
    }

    /// <summary>Restores a state that was saved.</summary>
    /// <param name="mean">n means.</param>
    /// <param name="covariance">n·n covariances, row by row.</param>
    /// <exception cref="ArgumentException">The lengths do not belong together, or a number is not finite.</exception>
    public ThermalState(ReadOnlySpan<double> mean, ReadOnlySpan<double> covariance)
        : this(mean.Length)
    {
        if (covariance.Length != mean.Length * mean.Length)
        {
            throw new ArgumentException($"A state of {mean.Length} numbers has {mean.Length * mean.Length} covariances, not {covariance.Length}.", nameof(covariance));
        }

        mean.CopyTo(Mean);
        covariance.CopyTo(Covariance);
        if (!Array.TrueForAll(Mean, double.IsFinite) || !Array.TrueForAll(Covariance, double.IsFinite))
        {
            throw new ArgumentException("A saved state has a number that is not finite.", nameof(mean));
        }
    }

    /// <summary>How many numbers.</summary>
    public int Count => Mean.Length;

    /// <summary>The means, for saving.</summary>
    public ReadOnlySpan<double> Means => Mean;

    /// <summary>The covariances row by row, for saving.</summary>
    public ReadOnlySpan<double> Covariances => Covariance;

    internal double[] Mean { get; }

    internal double[] Covariance { get; }

    /// <summary>Room for one product; its content means nothing between calls.</summary>
    internal double[] Scratch { get; }

    /// <summary>What covered the part in the last step; its nodes are told apart only in the same medium.</summary>
    public Medium PartMedium { get; set; } = Medium.Air;

    /// <summary>The mean of one number.</summary>
    public double this[int index] => Mean[index];

    /// <summary>The standard deviation of one number, zero or more.</summary>
    public double StandardDeviation(int index) => Math.Sqrt(Math.Max(0, Covariance[(index * Count) + index]));

    /// <summary>An independent copy.</summary>
    public ThermalState Copy() => CopyInto(null);

    /// <summary>An independent copy in the work area of a state that is not needed any more.</summary>
    /// <param name="room">A state of the same count, or null for a new one.</param>
    /// <exception cref="ArgumentException">The state has another count.</exception>
    public ThermalState CopyInto(ThermalState? room)
    {
        if (room is not null && room.Count != Count)
        {
            throw new ArgumentException($"A state of {Count} numbers does not fit into one of {room.Count}.", nameof(room));
        }

        var copy = room ?? new ThermalState(Count);
        CopyTo(copy);
        return copy;
    }

    /// <summary>Overwrites another state of the same machine with this one.</summary>
    /// <param name="other">A state of the same count.</param>
    public void CopyTo(ThermalState other)
    {
        ArgumentNullException.ThrowIfNull(other);
        Mean.CopyTo(other.Mean, 0);
        Covariance.CopyTo(other.Covariance, 0);
        other.PartMedium = PartMedium;
    }

    /// <summary>Variance of a linear combination of the numbers: gᵀ·P·g, zero or more.</summary>
    /// <param name="gradient">One weight a number.</param>
    public double Variance(ReadOnlySpan<double> gradient)
    {
        var sum = 0.0;
        for (var i = 0; i < gradient.Length; i++)
        {
            if (gradient[i] == 0)
            {
                continue;
            }

            var row = Covariance.AsSpan(i * Count, Count);
            var inner = 0.0;
            for (var j = 0; j < gradient.Length; j++)
            {
                inner += row[j] * gradient[j];
            }

            sum += gradient[i] * inner;
        }

        return Math.Max(0, sum);
    }

    /// <summary>Covariance of two linear combinations of the numbers: gᵀ·P·h.</summary>
    internal double CovarianceOf(ReadOnlySpan<double> one, ReadOnlySpan<double> other)
    {
        var sum = 0.0;
        for (var i = 0; i < one.Length; i++)
        {
            for (var j = 0; one[i] != 0 && j < other.Length; j++)
            {
                sum += one[i] * Covariance[(i * Count) + j] * other[j];
            }
        }

        return sum;
    }

    /// <summary>One number keeps a share of itself and of what it has in common with others, and its own variance goes back to that of a long time.</summary>
    internal void Fade(int index, double keep, double variance)
    {
        var n = Count;
        Mean[index] *= keep;
        for (var k = 0; k < n; k++)
        {
            Covariance[(index * n) + k] *= keep;
            Covariance[(k * n) + index] *= keep;
        }

        Covariance[(index * n) + index] += (1 - (keep * keep)) * variance;
    }

    internal double VarianceOf(int index) => Math.Max(0, Covariance[(index * Count) + index]);

    /// <summary>Makes one number independent of all others, with a given mean and variance.</summary>
    internal void Reset(int index, double mean, double variance)
    {
        var n = Count;
        Mean[index] = mean;
        for (var k = 0; k < n; k++)
        {
            Covariance[(index * n) + k] = 0;
            Covariance[(k * n) + index] = 0;
        }

        Covariance[(index * n) + index] = variance;
    }
}
