namespace ClimateGuard.Thermal;

/// <summary>How many independent values a series of residuals is worth.</summary>
public static class ResidualCorrelation
{
    /// <summary>The effective sample size n/(1 + 2·Σρₖ), the sum taken until the first autocorrelation that is not positive.</summary>
    /// <remarks>
    /// The first-zero rule is common practice; for white residuals the answer is close to n. Autocorrelation as in the NIST/SEMATECH
    /// e-Handbook: about the mean, divided by n.
    /// </remarks>
    /// <param name="residuals">Evenly spaced residuals; at least one.</param>
    /// <returns>In [1, n]; n when all residuals are equal.</returns>
    /// <exception cref="ArgumentException">There are no residuals.</exception>
    public static double EffectiveSampleSize(ReadOnlySpan<double> residuals)
    {
        var count = residuals.Length;
        if (count == 0)
        {
            throw new ArgumentException("There are no residuals.", nameof(residuals));
        }

        var mean = 0.0;
        foreach (var value in residuals)
        {
            mean += value / count;
        }

        var sum = 0.0;
        var variance = Lagged(residuals, mean, 0);
        for (var lag = 1; lag < count && variance > 0.0; lag++)
        {
            var correlation = Lagged(residuals, mean, lag) / variance;
            if (correlation <= 0.0)
            {
                break;
            }

            sum += correlation;
        }

        return Math.Clamp(count / (1.0 + (2.0 * sum)), 1.0, count);
    }

    private static double Lagged(ReadOnlySpan<double> residuals, double mean, int lag)
    {
        var sum = 0.0;
        for (var i = lag; i < residuals.Length; i++)
        {
            sum += (residuals[i] - mean) * (residuals[i - lag] - mean);
        }

        return sum;
    }
}
