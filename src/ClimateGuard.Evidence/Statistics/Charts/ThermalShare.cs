namespace ClimateGuard.Evidence;

/// <summary>Capability as it is, and as it would be without the thermal part: compute before buying air conditioning.</summary>
/// <remarks>
/// r = y − x carries the noise of the prediction as well, so s² without = var(r) − mean u²(x), never below var(r)/4. Half of the spread
/// is a quarter of the variance: removing it helps less than people hope.
/// </remarks>
public static class ThermalShare
{
    /// <summary>Compares the two.</summary>
    /// <param name="measured">y: deviations at 20 °C, in µm or mm; three or more.</param>
    /// <param name="predicted">x: predicted thermal effects in the same unit, as many.</param>
    /// <param name="predictionUncertainty">u(x) of each, 0 or more, as many.</param>
    /// <param name="lower">The lower limit of the deviation, or null for none.</param>
    /// <param name="upper">The upper limit of the deviation, or null for none; one of the two at least.</param>
    /// <param name="confidence">In (0, 1).</param>
    /// <param name="effectiveCount">The number of independent values they are worth, in [2, n]; null for all.</param>
    /// <returns>Both capabilities, and whether the noise correction met its floor.</returns>
    /// <exception cref="ArgumentException">The lists differ in length, are too short or have no spread, or there is no limit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static ThermalShareResult Of(
        IReadOnlyList<double> measured,
        IReadOnlyList<double> predicted,
        IReadOnlyList<double> predictionUncertainty,
        double? lower,
        double? upper,
        double confidence = 0.95,
        double? effectiveCount = null)
    {
        EvidenceInput.Sample(measured, 3);
        EvidenceInput.Sample(predicted, 3);
        EvidenceInput.Sample(predictionUncertainty, 3);
        EvidenceInput.SameLength(measured.Count, predicted.Count, nameof(measured), nameof(predicted));
        EvidenceInput.SameLength(measured.Count, predictionUncertainty.Count, nameof(measured), nameof(predictionUncertainty));
        foreach (var u in predictionUncertainty) EvidenceInput.NotNegative(u, nameof(predictionUncertainty));
        double[] rest = [.. measured.Zip(predicted, (y, x) => y - x)];
        var (all, left) = (Univariate.Moments(measured), Univariate.Moments(rest));
        var noise = predictionUncertainty.Sum(u => u * u) / predictionUncertainty.Count;
        var (without, floored) = WithoutNoise(left.StandardDeviation * left.StandardDeviation, noise);
        var n = effectiveCount ?? measured.Count;
        return new ThermalShareResult(
            Capability.OfMoments(all.Mean, all.StandardDeviation, n, lower, upper, confidence),
            Capability.OfMoments(left.Mean, without, n, lower, upper, confidence),
            floored);
    }

    /// <summary>√(total² − thermal²): the spread left when a part of it is taken away, the two being independent.</summary>
    /// <param name="total">Standard deviation of all, above 0.</param>
    /// <param name="thermal">Standard deviation of the thermal part, in [0, total].</param>
    /// <returns>What is left, in the same unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static double SpreadWithout(double total, double thermal)
    {
        EvidenceInput.Positive(total);
        if (!(thermal >= 0 && thermal <= total))
            throw new ArgumentOutOfRangeException(nameof(thermal), thermal, FormattableString.Invariant($"thermal must lie in [0, {total}]."));
        return Math.Sqrt((total - thermal) * (total + thermal));
    }

    internal static (double Deviation, bool Floored) WithoutNoise(double variance, double noise)
    {
        var corrected = variance - noise;
        return corrected < variance / 4 ? (Math.Sqrt(variance / 4), true) : (Math.Sqrt(corrected), false);
    }
}

/// <summary>Capability with and without the thermal part; equality is by value.</summary>
/// <param name="AsMeasured">Of the deviations as they are.</param>
/// <param name="WithoutThermalPart">Of the deviations less the prediction, its noise taken out.</param>
/// <param name="NoiseFloorMet">True when the prediction is so noisy that the correction was stopped at a quarter of the variance.</param>
public sealed record ThermalShareResult(CapabilityResult AsMeasured, CapabilityResult WithoutThermalPart, bool NoiseFloorMet);
