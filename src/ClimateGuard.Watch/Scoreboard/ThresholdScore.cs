namespace ClimateGuard.Watch;

/// <summary>What another hold threshold would have made of the cases whose outcome is known.</summary>
/// <param name="Threshold">Hold from this probability.</param>
/// <param name="Held">Cases that it would hold.</param>
/// <param name="Right">Of them those in which the effect did leave the budget.</param>
/// <param name="Exceeded">Cases in which it did, held or not.</param>
public sealed record ThresholdScore(double Threshold, int Held, int Right, int Exceeded)
{
    /// <summary>The thresholds of the table.</summary>
    public static IReadOnlyList<double> Grid { get; } = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

    /// <summary>Share of the held cases that were right, in [0, 1], or null when none would be held.</summary>
    public double? Precision => Held == 0 ? null : (double)Right / Held;

    /// <summary>Share of the exceedances that were held, in [0, 1], or null when there was none.</summary>
    public double? Recall => Exceeded == 0 ? null : (double)Right / Exceeded;

    /// <summary>The table over <see cref="Grid"/>.</summary>
    /// <param name="cases">The cases.</param>
    public static IReadOnlyList<ThresholdScore> Over(IReadOnlyList<OutcomeCase> cases)
    {
        ArgumentNullException.ThrowIfNull(cases);
        return
        [
            .. Grid.Select(threshold => new ThresholdScore(
                threshold,
                cases.Count(one => one.Probability >= threshold),
                cases.Count(one => one.Probability >= threshold && one.Exceeded),
                cases.Count(one => one.Exceeded))),
        ];
    }
}

/// <summary>A predicted probability whose outcome is known.</summary>
/// <param name="Probability">The probability, as it was kept then, in [0, 1].</param>
/// <param name="Exceeded">Whether the effect did leave the budget.</param>
public readonly record struct OutcomeCase(double Probability, bool Exceeded)
{
    // Between half the budget and the budget an inspected thermal part says neither, as with a measurement after a hold.
    private const double ClearlyWithin = 0.5;

    internal static IEnumerable<OutcomeCase> Of(IEnumerable<HeldWork> holds) => holds
        .Where(hold => hold.Decided && hold.Prediction is not null)
        .Select(hold => new OutcomeCase(hold.Prediction!.Probability, hold.Score!.Verdict == HoldVerdict.Confirmed));

    // A prediction cannot be its own outcome: only what the pattern says by itself counts.
    internal static IEnumerable<OutcomeCase> Of(ThermalPart thermal, double budgetMicrometres, FrozenPrediction? predicted)
    {
        var size = Math.Abs(thermal.Micrometres);
        if (predicted is not null && thermal.From == ThermalSource.Pattern && (size > budgetMicrometres || size < ClearlyWithin * budgetMicrometres))
        {
            yield return new OutcomeCase(predicted.Probability, size > budgetMicrometres);
        }
    }
}
