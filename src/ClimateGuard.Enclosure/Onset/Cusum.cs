namespace ClimateGuard.Enclosure;

/// <summary>When a signal began to move: a two-sided cumulative sum.</summary>
/// <remarks>Montgomery's tabular form as in the NIST/SEMATECH e-Handbook, 6.3.2.3; k = 0.5 σ and h = 5 σ by default (domain rule E.2).</remarks>
public static class Cusum
{
    /// <summary>The upper and lower sums at each step.</summary>
    /// <param name="values">The values.</param>
    /// <param name="target">The level without a change.</param>
    /// <param name="allowance">K, in the unit of the values.</param>
    public static IReadOnlyList<(double High, double Low)> Sums(IEnumerable<double> values, double target, double allowance)
    {
        ArgumentNullException.ThrowIfNull(values);
        double high = 0, low = 0;
        var sums = new List<(double, double)>();
        foreach (var value in values)
        {
            if (!double.IsNaN(value))
            {
                high = Math.Max(0, high + value - target - allowance);
                low = Math.Max(0, low + target - allowance - value);
            }

            sums.Add((high, low));
        }

        return sums;
    }

    /// <summary>The step at which the change began that first crossed h, or null: the last zero of the sum before the crossing.</summary>
    /// <param name="values">The values.</param>
    /// <param name="target">The level without a change.</param>
    /// <param name="sigma">Its standard deviation, above 0.</param>
    public static int? Onset(IReadOnlyList<double> values, double target, double sigma)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sigma);
        int highFrom = 0, lowFrom = 0;
        var step = 0;
        foreach (var (high, low) in Sums(values, target, 0.5 * sigma))
        {
            if (high <= 0) highFrom = step + 1;
            if (low <= 0) lowFrom = step + 1;
            if (high > 5 * sigma) return highFrom;
            if (low > 5 * sigma) return lowFrom;
            step++;
        }

        return null;
    }
}
