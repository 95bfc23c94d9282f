namespace ClimateGuard.Watch;

/// <summary>What a measurement said about a hold.</summary>
/// <param name="Machine">Id of the machine.</param>
/// <param name="Serial">Serial number.</param>
/// <param name="Operation">Operation.</param>
/// <param name="Feature">The feature that was held.</param>
/// <param name="PredictedMicrometres">The effect as predicted just before the measurement, in µm.</param>
/// <param name="UMicrometres">Its standard uncertainty then, in µm.</param>
/// <param name="MeasuredMicrometres">The effect with the measurement, in µm.</param>
/// <param name="BudgetMicrometres">Budget, in µm.</param>
/// <param name="Verdict">Whether the hold was right.</param>
/// <param name="Measurement">What was measured: <c>reprobe</c>, <c>span</c> or <c>contact</c>.</param>
public sealed record HoldScore(
    string Machine,
    string Serial,
    string Operation,
    string Feature,
    double PredictedMicrometres,
    double UMicrometres,
    double MeasuredMicrometres,
    double BudgetMicrometres,
    HoldVerdict Verdict,
    string Measurement)
{
    // Half-width of a 90 % interval of a normal distribution, in standard deviations.
    private const double NinetyPercent = 1.6449;

    /// <summary>Judges a hold by a measurement.</summary>
    /// <remarks>
    /// Confirmed: the measured effect is above 0.8 of the budget, or it lies in the prediction's 90 % interval and the prediction was above the
    /// budget. Refuted: it is below half the budget. Undecided: between (common practice, no source).
    /// </remarks>
    /// <param name="predictedMicrometres">Predicted effect, in µm.</param>
    /// <param name="uMicrometres">Its standard uncertainty, in µm.</param>
    /// <param name="measuredMicrometres">Measured effect, in µm.</param>
    /// <param name="budgetMicrometres">Budget, in µm, positive.</param>
    public static HoldVerdict Judge(double predictedMicrometres, double uMicrometres, double measuredMicrometres, double budgetMicrometres)
    {
        var measured = Math.Abs(measuredMicrometres);
        var agrees = Math.Abs(measuredMicrometres - predictedMicrometres) <= NinetyPercent * uMicrometres;
        if (measured > 0.8 * budgetMicrometres || (agrees && Math.Abs(predictedMicrometres) > budgetMicrometres))
        {
            return HoldVerdict.Confirmed;
        }

        return measured < 0.5 * budgetMicrometres ? HoldVerdict.Refuted : HoldVerdict.Undecided;
    }
}

/// <summary>Whether a hold was right.</summary>
public enum HoldVerdict
{
    /// <summary>It was.</summary>
    Confirmed,

    /// <summary>It was not.</summary>
    Refuted,

    /// <summary>The measurement does not say.</summary>
    Undecided,
}
