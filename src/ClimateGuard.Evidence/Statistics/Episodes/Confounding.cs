namespace ClimateGuard.Evidence;

/// <summary>Whether a thermal variable can be told from a recorded one such as shift, operator or machine.</summary>
/// <remarks>
/// η = √(SS between/SS total), the correlation ratio; with two groups it is the absolute correlation with the indicator. Above 0.8 the
/// data cannot separate the two (common practice, no source): ask for the same operator at a deliberate step, or the same shift on two days.
/// </remarks>
/// <param name="CorrelationRatio">η, in [0, 1].</param>
/// <param name="CannotBeSeparated">True above <see cref="Limit"/>.</param>
public sealed record Confounding(double CorrelationRatio, bool CannotBeSeparated)
{
    /// <summary>The correlation above which two causes are not separated.</summary>
    public const double Limit = 0.8;

    /// <summary>Holds the thermal variable against a recorded one.</summary>
    /// <param name="exposure">Of each part, finite; three values or more.</param>
    /// <param name="label">Shift, operator or machine of each part, as many; with one label for all there is nothing to confound.</param>
    /// <returns>The correlation ratio and the judgement. Where each part has a label of its own nothing can be separated.</returns>
    /// <exception cref="ArgumentException">The lists differ in length or are too short.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a finite number.</exception>
    public static Confounding Of(IReadOnlyList<double> exposure, IReadOnlyList<string> label)
    {
        EvidenceInput.Sample(exposure, 3);
        ArgumentNullException.ThrowIfNull(label);
        EvidenceInput.SameLength(exposure.Count, label.Count, nameof(exposure), nameof(label));
        double[][] groups =
        [
            .. Enumerable.Range(0, exposure.Count).GroupBy(i => label[i], StringComparer.Ordinal).Select(group => group.Select(i => exposure[i]).ToArray()),
        ];
        if (groups.Length == 1) return new Confounding(0, false);
        if (groups.Length == exposure.Count) return new Confounding(1, true);
        var ratio = Math.Sqrt(AnalysisOfVariance.OneWay(groups).RSquared);
        return new Confounding(ratio, ratio > Limit);
    }
}
