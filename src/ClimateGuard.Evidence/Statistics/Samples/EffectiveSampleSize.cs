namespace ClimateGuard.Evidence;

/// <summary>How many independent values a set of dependent ones is worth.</summary>
public static class EffectiveSampleSize
{
    /// <summary>n(1 − r₁)/(1 + r₁), for values of a first-order autoregression; a negative r₁ is taken as 0.</summary>
    /// <remarks>Bayley and Hammersley, Supplement to the JRSS 8 (1946) 184 (from memory). Autocorrelation below zero would promise more
    /// information than there are values; it is not credited.</remarks>
    /// <param name="values">Two values or more in the order of time.</param>
    /// <returns>The effective number, in [1, n].</returns>
    /// <exception cref="ArgumentException">There are fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static double OfSeries(IReadOnlyList<double> values)
    {
        var r = Math.Clamp(Univariate.LagOneAutocorrelation(values), 0, 1);
        return Math.Max(1, values.Count * (1 - r) / (1 + r));
    }

    /// <summary>n/(1 + (m − 1)·ρ): parts of the same episode are alike by the intraclass correlation ρ.</summary>
    /// <remarks>The design effect of Kish, Survey Sampling, 1965 (from memory).</remarks>
    /// <param name="count">n, all parts, one or more.</param>
    /// <param name="partsPerEpisode">m, the mean number of parts in an episode, in [1, n].</param>
    /// <param name="intraclassCorrelation">ρ, in [0, 1]: 0 for independent parts, 1 when an episode is one observation.</param>
    /// <returns>The effective number, in [number of episodes, n].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double OfEpisodes(int count, double partsPerEpisode, double intraclassCorrelation)
    {
        EvidenceInput.Count(count, 1, int.MaxValue);
        if (!(partsPerEpisode >= 1 && partsPerEpisode <= count))
            throw new ArgumentOutOfRangeException(nameof(partsPerEpisode), partsPerEpisode, $"partsPerEpisode must lie in [1, {count}].");
        if (intraclassCorrelation is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(intraclassCorrelation), intraclassCorrelation, "intraclassCorrelation must lie in [0, 1].");
        return count / (1 + ((partsPerEpisode - 1) * intraclassCorrelation));
    }
}
