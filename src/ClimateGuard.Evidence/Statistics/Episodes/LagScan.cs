namespace ClimateGuard.Evidence;

/// <summary>What the best lag of a scan suggests.</summary>
public enum LagSuggestion
{
    /// <summary>The best lag is the one that physics expects, within one step.</summary>
    AsPhysicsExpects,

    /// <summary>The best lag is 0 though physics expects one: another path, such as the temperature of the measurement.</summary>
    AnotherPathAtOnce,

    /// <summary>The best lag is a whole number of days though physics expects less: shift or operator.</summary>
    FollowsTheClock,

    /// <summary>Some other lag.</summary>
    OtherLag,

    /// <summary>No lag stands out after counting how many were looked at.</summary>
    NothingStandsOut,
}

/// <summary>Correlates outcomes with the exposure of earlier moments, lag by lag.</summary>
/// <remarks>An exploration: p of each lag is Benjamini–Hochberg-adjusted over all lags, with the pairs counted by effective number.</remarks>
public static class LagScan
{
    private const double Level = 0.10;

    /// <summary>The scan.</summary>
    /// <param name="exposure">At even steps in the order of time, finite.</param>
    /// <param name="outcome">At the same steps; null where no part was measured.</param>
    /// <param name="step">Time from one value to the next, above 0.</param>
    /// <param name="lags">How many lags from 0 on, one or more, each leaving four pairs or more.</param>
    /// <param name="expected">The lag that the time constant of part or machine implies, 0 or more.</param>
    /// <returns>All lags, the best one and what it suggests.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, or a lag leaves fewer than four pairs.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static LagScanResult Scan(
        IReadOnlyList<double> exposure, IReadOnlyList<double?> outcome, TimeSpan step, int lags, TimeSpan expected)
    {
        EvidenceInput.Sample(exposure, 4);
        ArgumentNullException.ThrowIfNull(outcome);
        EvidenceInput.SameLength(exposure.Count, outcome.Count, nameof(exposure), nameof(outcome));
        EvidenceInput.Positive(step.TotalSeconds, nameof(step));
        EvidenceInput.NotNegative(expected.TotalSeconds, nameof(expected));
        EvidenceInput.Count(lags, 1, exposure.Count);
        var found = Enumerable.Range(0, lags).Select(lag => AtLag(exposure, outcome, lag)).ToArray();
        var adjusted = MultipleTesting.BenjaminiHochberg([.. found.Select(lag => lag.PValue)], Level);
        LagCorrelation[] all = [.. found.Select((lag, i) => new LagCorrelation(step * i, lag.Correlation, lag.Pairs, adjusted.Adjusted[i]))];
        var best = all.MaxBy(lag => Math.Abs(lag.Correlation))!;
        return new LagScanResult(all, best, expected, Suggest(best, step, expected));
    }

    private static (double Correlation, int Pairs, double PValue) AtLag(IReadOnlyList<double> exposure, IReadOnlyList<double?> outcome, int lag)
    {
        List<double> x = [], y = [];
        for (var i = lag; i < outcome.Count; i++)
        {
            if (outcome[i] is not { } value) continue;
            x.Add(exposure[i - lag]);
            y.Add(value);
        }

        if (x.Count < 4) throw new ArgumentException($"Lag {lag} leaves {x.Count} pairs; four or more are needed. Ask for fewer lags.", nameof(outcome));
        EvidenceInput.Sample(y, 4, nameof(outcome));
        var r = Association.Pearson(x, y);
        // Bartlett: two autocorrelated series are worth n(1 − rx·ry)/(1 + rx·ry) pairs.
        var product = Math.Clamp(Univariate.LagOneAutocorrelation(x) * Univariate.LagOneAutocorrelation(y), 0, 0.999);
        var freedom = Math.Max(1, (x.Count * (1 - product) / (1 + product)) - 2);
        return (r, x.Count, Tail.Student(r * Math.Sqrt(freedom / Math.Max(0, 1 - (r * r))), freedom));
    }

    private static LagSuggestion Suggest(LagCorrelation best, TimeSpan step, TimeSpan expected)
    {
        if (best.AdjustedPValue > Level) return LagSuggestion.NothingStandsOut;
        if ((best.Lag - expected).Duration() <= step) return LagSuggestion.AsPhysicsExpects;
        if (best.Lag == TimeSpan.Zero) return LagSuggestion.AnotherPathAtOnce;
        var days = Math.Round(best.Lag.TotalDays);
        return days >= 1 && (best.Lag - TimeSpan.FromDays(days)).Duration() <= step / 2 ? LagSuggestion.FollowsTheClock : LagSuggestion.OtherLag;
    }
}

/// <summary>The correlation at one lag; equality is by value.</summary>
/// <param name="Lag">How much earlier the exposure was.</param>
/// <param name="Correlation">r, in [−1, 1].</param>
/// <param name="Pairs">How many there were.</param>
/// <param name="AdjustedPValue">After counting all lags, in [0, 1].</param>
public sealed record LagCorrelation(TimeSpan Lag, double Correlation, int Pairs, double AdjustedPValue);

/// <summary>A lag scan; equality is that of the references of the lists.</summary>
/// <param name="Lags">All lags looked at, from 0; their number must stand in a report.</param>
/// <param name="Best">The one of largest absolute correlation.</param>
/// <param name="Expected">The lag that physics expects.</param>
/// <param name="Suggestion">What the best lag suggests.</param>
public sealed record LagScanResult(IReadOnlyList<LagCorrelation> Lags, LagCorrelation Best, TimeSpan Expected, LagSuggestion Suggestion);
