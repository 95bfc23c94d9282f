namespace ClimateGuard.Enclosure;

/// <summary>A value that goes back to its mean: x(t+h) = m + φ^h·(x(t) − m), with the spread σ·√(1 − φ^2h) around it.</summary>
/// <remarks>Yule and Walker: autocovariances about the mean with the divisor n. Equality by members; no order; the default stays at zero.</remarks>
/// <param name="Mean">m.</param>
/// <param name="Keep">φ, what is left of a departure after one step, in (−1, 1).</param>
/// <param name="Deviation">σ, the standard deviation after a long time.</param>
public readonly record struct Ar1(double Mean, double Keep, double Deviation)
{
    /// <summary>Fits a series; gaps (NaN) belong to no pair.</summary>
    /// <param name="values">Even steps.</param>
    /// <returns>Mean NaN when nothing is known; Keep 0 for a series without spread.</returns>
    public static Ar1 Fit(ReadOnlySpan<double> values)
    {
        double sum = 0;
        var known = 0;
        foreach (var value in values)
        {
            if (double.IsNaN(value)) continue;
            sum += value;
            known++;
        }

        if (known == 0) return new Ar1(double.NaN, 0, double.NaN);
        var mean = sum / known;
        double squares = 0, products = 0;
        for (var t = 0; t < values.Length; t++)
        {
            if (double.IsNaN(values[t])) continue;
            squares += (values[t] - mean) * (values[t] - mean);
            if (t > 0 && !double.IsNaN(values[t - 1])) products += (values[t] - mean) * (values[t - 1] - mean);
        }

        // A constant has rounding errors, no spread.
        return squares <= known * 1e-20 * Math.Max(1, mean * mean) ? new Ar1(mean, 0, 0) : new Ar1(mean, products / squares, Math.Sqrt(squares / known));
    }

    /// <summary>The value expected after so many steps.</summary>
    /// <param name="last">The value now.</param>
    /// <param name="steps">Steps ahead, from 0.</param>
    public double After(double last, int steps) => Mean + (Math.Pow(Keep, steps) * (last - Mean));

    /// <summary>The standard deviation around it.</summary>
    /// <param name="steps">Steps ahead, from 0.</param>
    public double DeviationAfter(int steps) => Deviation * Math.Sqrt(1 - Math.Pow(Keep * Keep, steps));
}
