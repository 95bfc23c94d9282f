using ClimateGuard.Evidence;

namespace ClimateGuard.Watch;

/// <summary>The Hampel identifier: a value is foreign when it lies more than three robust standard deviations from the median.</summary>
/// <remarks>
/// The median absolute deviation times 1.4826 = 1/Φ⁻¹(3/4) estimates the standard deviation of a normal sample (Hampel 1974; the constant
/// of <c>mad</c> in R). Pure, no allocation.
/// </remarks>
public static class HampelFilter
{
    /// <summary>A value is foreign beyond so many robust standard deviations.</summary>
    public const double Deviations = 3.0;

    /// <summary>The longest window, in values.</summary>
    public const int MostValues = 64;

    /// <summary>Median and robust standard deviation of a window.</summary>
    /// <param name="values">The window, 1 to 64 finite values in any order.</param>
    /// <exception cref="ArgumentOutOfRangeException">The window is empty or too long.</exception>
    public static (double Median, double StandardDeviation) Centre(ReadOnlySpan<double> values)
    {
        var median = Median(values);
        Span<double> departures = stackalloc double[values.Length];
        for (var i = 0; i < values.Length; i++)
        {
            departures[i] = Math.Abs(values[i] - median);
        }

        return (median, Univariate.NormalConsistency * MedianInPlace(departures));
    }

    /// <summary>The median of a window.</summary>
    /// <param name="values">1 to 64 finite values in any order.</param>
    /// <exception cref="ArgumentOutOfRangeException">The window is empty or too long.</exception>
    public static double Median(ReadOnlySpan<double> values)
    {
        ArgumentOutOfRangeException.ThrowIfZero(values.Length, nameof(values));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(values.Length, MostValues, nameof(values));
        Span<double> copy = stackalloc double[values.Length];
        values.CopyTo(copy);
        return MedianInPlace(copy);
    }

    /// <summary>Whether a value is foreign to a window.</summary>
    /// <param name="value">The value.</param>
    /// <param name="values">The window before it, in any order.</param>
    /// <param name="floor">A departure up to this is never foreign, in the unit of the values; keeps a flat window from refusing its first real move.</param>
    public static bool IsForeign(double value, ReadOnlySpan<double> values, double floor)
    {
        if (Math.Abs(value - Median(values)) <= floor)
        {
            return false;
        }

        var (median, deviation) = Centre(values);
        return Math.Abs(value - median) > Math.Max(floor, Deviations * deviation);
    }

    // Insertion sort: the windows are short, and it allocates nothing.
    private static double MedianInPlace(Span<double> values)
    {
        for (var i = 1; i < values.Length; i++)
        {
            var value = values[i];
            var place = i;
            while (place > 0 && values[place - 1] > value)
            {
                values[place] = values[place - 1];
                place--;
            }

            values[place] = value;
        }

        return (values[(values.Length - 1) / 2] + values[values.Length / 2]) / 2;
    }
}
