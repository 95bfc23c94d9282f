namespace ClimateGuard.Evidence;

/// <summary>Does more exposure go with more deviation, third by third?</summary>
public static class DoseGradient
{
    /// <summary>Cuts the parts into thirds of exposure and compares their mean outcomes.</summary>
    /// <param name="exposure">Six values or more, finite; ties across a third's edge stay in the lower third.</param>
    /// <param name="outcome">As many, finite.</param>
    /// <param name="confidence">Of the interval of highest minus lowest third, in (0, 1).</param>
    /// <returns>The thirds from low to high, the difference between the outer ones, and whether the means climb or fall without a turn.</returns>
    /// <exception cref="ArgumentException">The lists differ in length or are too short, or ties leave a third with fewer than two values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its range, or is not a number.</exception>
    public static DoseGradientResult ByThirds(IReadOnlyList<double> exposure, IReadOnlyList<double> outcome, double confidence = 0.95)
    {
        EvidenceInput.Sample(exposure, 6);
        EvidenceInput.Sample(outcome, 6);
        EvidenceInput.SameLength(exposure.Count, outcome.Count, nameof(exposure), nameof(outcome));
        double low = Quantile.Of(exposure, 1.0 / 3), high = Quantile.Of(exposure, 2.0 / 3);
        var thirds = Enumerable.Range(0, exposure.Count)
            .GroupBy(i => exposure[i] <= low ? 0 : exposure[i] <= high ? 1 : 2)
            .OrderBy(group => group.Key)
            .Select(group => (X: group.Select(i => exposure[i]).ToArray(), Y: group.Select(i => outcome[i]).ToArray()))
            .ToArray();
        if (thirds.Length < 3 || thirds.Any(third => third.Y.Length < 2))
            throw new ArgumentException("Too many exposures are equal to cut them into thirds of two values or more.", nameof(exposure));
        DoseThird[] found =
        [
            .. thirds.Select(third => new DoseThird(third.Y.Length, Univariate.Mean(third.X), Univariate.Mean(third.Y), Univariate.StandardDeviation(third.Y))),
        ];
        var flat = found[0].OutcomeDeviation == 0 && found[2].OutcomeDeviation == 0;
        var difference = flat ? null : WelchTest.Test(thirds[2].Y, thirds[0].Y, confidence: confidence);
        var steps = (Math.Sign(found[1].MeanOutcome - found[0].MeanOutcome), Math.Sign(found[2].MeanOutcome - found[1].MeanOutcome));
        return new DoseGradientResult(found, difference, steps.Item1 != 0 && steps.Item1 == steps.Item2);
    }
}

/// <summary>One third of the parts by exposure; equality is by value.</summary>
/// <param name="Count">How many parts.</param>
/// <param name="MeanExposure">In the unit of the exposure.</param>
/// <param name="MeanOutcome">In the unit of the outcome.</param>
/// <param name="OutcomeDeviation">Standard deviation of the outcomes.</param>
public sealed record DoseThird(int Count, double MeanExposure, double MeanOutcome, double OutcomeDeviation);

/// <summary>The gradient over thirds; equality is that of the references of the lists.</summary>
/// <param name="Thirds">From low to high exposure.</param>
/// <param name="HighestMinusLowest">Difference of the outer thirds with its test; null where neither has any spread.</param>
/// <param name="Steady">Whether the means climb, or fall, twice.</param>
public sealed record DoseGradientResult(IReadOnlyList<DoseThird> Thirds, MeanDifference? HighestMinusLowest, bool Steady);
