namespace ClimateGuard.Thermal;

/// <summary>What is left of a feature's deviations after the predicted thermal part was taken off.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ResidualSpread
{
    /// <summary>The fewest residuals that make a spread (common practice, no source).</summary>
    public const int Fewest = 10;

    private const double Tail = 0.003;

    private ResidualSpread()
    {
    }

    /// <summary>How many residuals.</summary>
    public int Count { get; private init; }

    /// <summary>Their mean, in µm.</summary>
    public double MeanMicrometres { get; private init; }

    /// <summary>Their standard deviation, in µm.</summary>
    public double StandardDeviationMicrometres { get; private init; }

    /// <summary>What 99.7 % of their magnitudes stay below, in µm.</summary>
    public double Quantile997Micrometres { get; private init; }

    /// <summary>From the signed deviations of a size, depth or distance, in µm.</summary>
    /// <param name="micrometres">At least 10.</param>
    /// <exception cref="ArgumentOutOfRangeException">There are fewer, or one is not a number.</exception>
    public static ResidualSpread OfSizes(IReadOnlyList<double> micrometres)
    {
        Check(micrometres);
        var mean = micrometres.Average();
        var deviation = Math.Sqrt(micrometres.Sum(value => (value - mean) * (value - mean)) / (micrometres.Count - 1));
        return new ResidualSpread
        {
            Count = micrometres.Count,
            MeanMicrometres = mean,
            StandardDeviationMicrometres = deviation,
            Quantile997Micrometres = Quantile([.. micrometres.Select(Math.Abs)]),
        };
    }

    /// <summary>From the lengths |d| of the position errors of holes, in µm (not the diametral values).</summary>
    /// <param name="micrometres">At least 10, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">There are fewer, or one is negative or not a number.</exception>
    public static ResidualSpread OfPositions(IReadOnlyList<double> micrometres)
    {
        Check(micrometres);
        foreach (var length in micrometres)
        {
            FormulaInput.NotNegative(length, "µm");
        }

        return OfSizes(micrometres);
    }

    /// <summary>
    /// From enough values their own quantile; from fewer, which cannot have seen the last three in a thousand, that of a Rayleigh
    /// distribution of the same mean square, √(−2·ln 0.003)·σ, but no less than the largest seen.
    /// </summary>
    private static double Quantile(double[] magnitudes)
    {
        Array.Sort(magnitudes);
        if (magnitudes.Length * Tail >= 1)
        {
            var place = (1 - Tail) * (magnitudes.Length - 1);
            var below = (int)place;
            return magnitudes[below] + ((place - below) * (magnitudes[Math.Min(below + 1, magnitudes.Length - 1)] - magnitudes[below]));
        }

        var sigma = Math.Sqrt(magnitudes.Sum(value => value * value) / (2 * magnitudes.Length));
        return Math.Max(magnitudes[^1], Math.Sqrt(-2 * Math.Log(Tail)) * sigma);
    }

    private static void Check(IReadOnlyList<double> micrometres)
    {
        ArgumentNullException.ThrowIfNull(micrometres);
        FormulaInput.InRange(micrometres.Count, Fewest, int.MaxValue, "residuals", "number of residuals");
        foreach (var value in micrometres)
        {
            FormulaInput.Finite(value, "µm", "residual");
        }
    }
}
