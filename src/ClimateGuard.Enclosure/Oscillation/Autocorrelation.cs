namespace ClimateGuard.Enclosure;

/// <summary>Autocorrelation with the divisor n at every lag, demeaned.</summary>
public static class Autocorrelation
{
    /// <summary>ρ at lags 0 to the longest.</summary>
    /// <param name="values">Two or more finite values.</param>
    /// <param name="longest">The longest lag, in steps; below the number of values.</param>
    /// <exception cref="ArgumentOutOfRangeException">There are too few values for that lag.</exception>
    public static double[] Of(ReadOnlySpan<double> values, int longest)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(longest, values.Length);
        double mean = 0;
        foreach (var value in values) mean += value / values.Length;
        var result = new double[longest + 1];
        for (var lag = 0; lag <= longest; lag++)
        {
            double sum = 0;
            for (var i = lag; i < values.Length; i++) sum += (values[i] - mean) * (values[i - lag] - mean);
            result[lag] = sum;
        }

        var variance = result[0];
        for (var lag = 0; lag <= longest; lag++) result[lag] = variance > 0 ? result[lag] / variance : lag == 0 ? 1 : 0;
        return result;
    }
}
