namespace ClimateGuard.Enclosure;

/// <summary>Quantiles and spreads that a few odd values do not move; NaN is left out everywhere.</summary>
internal static class Robust
{
    /// <summary>The quantile of the known values, by linear interpolation; NaN when none is known.</summary>
    public static double Quantile(IEnumerable<double> values, double share)
    {
        var known = values.Where(value => !double.IsNaN(value)).ToArray();
        if (known.Length == 0) return double.NaN;
        Array.Sort(known);
        var place = share * (known.Length - 1);
        var below = (int)place;
        var above = Math.Min(below + 1, known.Length - 1);
        return known[below] + ((place - below) * (known[above] - known[below]));
    }

    /// <summary>The median.</summary>
    public static double Median(IEnumerable<double> values) => Quantile(values, 0.5);

    /// <summary>The standard deviation that a normal sample of this median absolute deviation has.</summary>
    public static double Sigma(IReadOnlyCollection<double> values)
    {
        var middle = Median(values);
        return 1.4826 * Median(values.Select(value => Math.Abs(value - middle)));
    }

    /// <summary>The mean of the known values; NaN when none is known.</summary>
    public static double Mean(IEnumerable<double> values)
    {
        double sum = 0;
        var count = 0;
        foreach (var value in values)
        {
            if (double.IsNaN(value)) continue;
            sum += value;
            count++;
        }

        return count == 0 ? double.NaN : sum / count;
    }

    /// <summary>Greatest minus least known value; NaN when none is known.</summary>
    public static double Range(ReadOnlySpan<double> values)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        foreach (var value in values)
        {
            if (double.IsNaN(value)) continue;
            low = Math.Min(low, value);
            high = Math.Max(high, value);
        }

        return high >= low ? high - low : double.NaN;
    }
}
