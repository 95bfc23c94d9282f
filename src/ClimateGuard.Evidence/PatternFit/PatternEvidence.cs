using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>What the holes of one part say: taken apart, held against their prediction, and as a time series.</summary>
public sealed record PatternEvidence
{
    /// <summary>The fewest holes with vectors that are taken apart.</summary>
    public const int FewestHoles = 4;

    /// <summary>The measured holes at 20 °C.</summary>
    public required IReadOnlyList<(int Hole, HoleDeviation Deviation)> Measured { get; init; }

    /// <summary>The predicted deviation of each measured hole, in the same order.</summary>
    public required IReadOnlyList<HoleDeviation> Predicted { get; init; }

    /// <summary>When each was cut.</summary>
    public required IReadOnlyList<DateTimeOffset> CutAt { get; init; }

    /// <summary>The moments are recorded; else spread evenly over the cut.</summary>
    public required bool TimesRecorded { get; init; }

    /// <summary>The measured pattern taken apart.</summary>
    public required SimilarityFit Fit { get; init; }

    /// <summary>The predicted pattern taken apart in the same way.</summary>
    public required SimilarityFit PredictedFit { get; init; }

    /// <summary>What stands out, the largest first.</summary>
    public required IReadOnlyList<PatternSign> Signs { get; init; }

    /// <summary>The displacement of the second half of a two-sided pattern, as measured and as predicted; null where there are no halves to be told apart.</summary>
    public (TwoHalvesTest? Measured, TwoHalvesTest? Predicted) Halves { get; init; }

    /// <summary>Trend of the scale with the time of cutting, or null.</summary>
    public HoleOrderTrend? Trend { get; init; }

    /// <summary>Measured radial deviation on predicted radial deviation, hole by hole; null where the prediction hardly differs between holes.</summary>
    public SlopeTest? WithinPart { get; init; }

    /// <summary>The difference of temperature that the scale stands for, in K.</summary>
    public required Estimate EquivalentKelvins { get; init; }

    /// <summary>Whether the pattern is that of the prediction.</summary>
    public required PatternMatch Match { get; init; }

    /// <summary>What the prediction mostly consists of, and is held against: scale, translation, rotation or a displacement of two halves.</summary>
    public required PatternComponent Compared { get; init; }

    /// <summary>Why, in words.</summary>
    public required string Why { get; init; }

    /// <summary>Takes the holes of a part apart.</summary>
    /// <param name="cut">The cut with its samples.</param>
    /// <param name="feature">The pattern.</param>
    /// <param name="measured">Its holes at 20 °C.</param>
    /// <param name="uPredicted">Standard uncertainty of the predicted diametral position, in µm.</param>
    /// <returns>The evidence, or null with fewer than four holes, all at one place, or without a prediction.</returns>
    public static PatternEvidence? Of(CutExposure cut, PositionFeature feature, IReadOnlyList<(int Hole, HoleDeviation Deviation)> measured, double uPredicted)
    {
        ArgumentNullException.ThrowIfNull(cut);
        ArgumentNullException.ThrowIfNull(feature);
        ArgumentNullException.ThrowIfNull(measured);
        var (all, times, recorded) = PatternPrediction.Of(cut, feature);
        (int Hole, HoleDeviation Deviation)[] known = [.. measured.Where(one => double.IsFinite(all[one.Hole - 1].Dx))];
        if (known.Length < FewestHoles || known.Select(one => (one.Deviation.X, one.Deviation.Y)).Distinct().Count() < 2) return null;
        HoleDeviation[] holes = [.. known.Select(one => one.Deviation)], predicted = [.. known.Select(one => all[one.Hole - 1])];
        DateTimeOffset[] at = [.. known.Select(one => times[one.Hole - 1])];
        var (fit, expected) = (SimilarityFit.Of(holes), SimilarityFit.Of(predicted, 1));
        var trend = at.Distinct().Count() > 2 && holes.Length > FewestHoles ? HoleOrderTrend.Of(holes, [.. at.Select(time => (time - at[0]).TotalMinutes)]) : null;
        var halves = (Measured: InHalves(feature, known, holes, null), Predicted: InHalves(feature, known, predicted, 1));
        var (compared, match, why) = PatternComparison.Of(fit, expected, predicted, uPredicted, halves);
        return new PatternEvidence
        {
            Measured = known, Predicted = predicted, CutAt = at, TimesRecorded = recorded, Fit = fit, PredictedFit = expected,
            Signs = PatternSigns.Read(fit, feature.Strategy, trend, halves.Measured), Halves = halves, Trend = trend, WithinPart = Within(holes, predicted),
            EquivalentKelvins = fit.EquivalentMismatchKelvin(cut.Part.Material.AlphaMicrometresPerMetreKelvin, cut.Part.Material.UAlphaMicrometresPerMetreKelvin),
            Compared = compared, Match = match, Why = why,
        };
    }

    /// <summary>A trend within the part that shift, operator or machine cannot have made: slope near 1, and the scale moves the predicted way.</summary>
    public bool ShowsTrend => WithinPart is { Finding: SlopeFinding.ConsistentInSize } && Trend is { PValue: < 0.05 };

    // Null where the pattern was not cut in halves, or its halves lie so that their displacement is a scale or a rotation like any other.
    private static TwoHalvesTest? InHalves(PositionFeature feature, (int Hole, HoleDeviation Deviation)[] known, HoleDeviation[] holes, double? scatter)
    {
        bool[] second = [.. known.Select(one => one.Hole > feature.Points.Count / 2)];
        if (feature.Strategy != CuttingStrategy.TwoSided || second.Distinct().Count() < 2) return null;
        try
        {
            return TwoHalvesTest.Of(holes, second, scatter);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static SlopeTest? Within(HoleDeviation[] holes, HoleDeviation[] predicted)
    {
        double[] x = [.. predicted.Select(Radial)], y = [.. holes.Select(Radial)];
        // Below a µm between the holes there is nothing to regress on.
        return x.Length > FewestHoles && x.Max() - x.Min() > 1 ? SlopeTest.Of(LinearRegression.Line(x, y).Coefficient(1)) : null;
    }

    private static double Radial(HoleDeviation hole)
    {
        var radius = double.Hypot(hole.X, hole.Y);
        return radius > 0 ? ((hole.Dx * hole.X) + (hole.Dy * hole.Y)) / radius : 0;
    }
}
