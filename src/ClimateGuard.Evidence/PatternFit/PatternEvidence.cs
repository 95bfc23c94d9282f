using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>What the holes of one part say: taken apart, held against their prediction, and as a time series.</summary>
public sealed record PatternEvidence
{
    /// <summary>The fewest holes with vectors that are taken apart.</summary>
    public const int FewestHoles = 4;

    // A component agrees within two standard uncertainties, or within 30 % of what was predicted (the width of "main cause").
    private const double Coverage = 2;
    private const double SizeShare = 0.3;

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

    /// <summary>Trend of the scale with the time of cutting, or null.</summary>
    public HoleOrderTrend? Trend { get; init; }

    /// <summary>Measured radial deviation on predicted radial deviation, hole by hole; null where the prediction hardly differs between holes.</summary>
    public SlopeTest? WithinPart { get; init; }

    /// <summary>The difference of temperature that the scale stands for, in K.</summary>
    public required Estimate EquivalentKelvins { get; init; }

    /// <summary>Whether the pattern is that of the prediction.</summary>
    public required PatternMatch Match { get; init; }

    /// <summary>What the prediction mostly consists of, and is held against: scale, translation or rotation.</summary>
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
        var (compared, match, why) = Matching(fit, expected, predicted, uPredicted);
        return new PatternEvidence
        {
            Measured = known, Predicted = predicted, CutAt = at, TimesRecorded = recorded, Fit = fit, PredictedFit = expected,
            Signs = PatternSigns.Read(fit, feature.Strategy, trend), Trend = trend, WithinPart = Within(holes, predicted),
            EquivalentKelvins = fit.EquivalentMismatchKelvin(cut.Part.Material.AlphaMicrometresPerMetreKelvin, cut.Part.Material.UAlphaMicrometresPerMetreKelvin),
            Compared = compared, Match = match, Why = why,
        };
    }

    /// <summary>A trend within the part that shift, operator or machine cannot have made: slope near 1, and the scale moves the predicted way.</summary>
    public bool ShowsTrend => WithinPart is { Finding: SlopeFinding.ConsistentInSize } && Trend is { PValue: < 0.05 };

    // The component that the prediction is mostly made of must be there, with its size. All is taken about the datum, from which a part grows: about the centre
    // of the holes the growth of a pattern far from its datum would pass for a translation, and a translation that is none of temperature would hide it.
    internal static (PatternComponent Compared, PatternMatch Match, string Why) Matching(SimilarityFit fit, SimilarityFit expected, HoleDeviation[] predicted, double uPredicted)
    {
        var reach = Math.Sqrt(predicted.Sum(hole => (hole.X * hole.X) + (hole.Y * hole.Y))) / 1000;
        double tx = expected.DatumTranslationX.Value, ty = expected.DatumTranslationY.Value, n = predicted.Length;
        var ofScale = Math.Abs(expected.ScaleMicrometresPerMetre.Value) * reach;
        var ofTranslation = Math.Sqrt(n) * double.Hypot(tx, ty);
        var ofRotation = Math.Abs(expected.RotationMicroradians.Value) * reach;
        var u = Math.Max(uPredicted, 0) / 2;
        if (ofScale >= ofTranslation && ofScale >= ofRotation)
        {
            return Same(PatternComponent.Scale, fit.ScaleMicrometresPerMetre, expected.ScaleMicrometresPerMetre.Value, u * Math.Sqrt(n) / reach, "µm/m");
        }

        if (ofTranslation < ofRotation)
        {
            return Same(PatternComponent.Rotation, fit.RotationMicroradians, expected.RotationMicroradians.Value, u * Math.Sqrt(n) / reach, "µrad");
        }

        var (x, y) = (fit.DatumTranslationX, fit.DatumTranslationY);
        var off = double.Hypot(x.Value - tx, y.Value - ty);
        var may = Math.Max(Coverage * double.Hypot(double.Hypot(x.StandardError, y.StandardError), u), SizeShare * double.Hypot(tx, ty));
        return (PatternComponent.Translation, off <= may ? PatternMatch.Matches : PatternMatch.Mismatch, FormattableString.Invariant(
            $"translation at the datum measured ({x.Value:0.0}, {y.Value:0.0}), predicted ({tx:0.0}, {ty:0.0}) µm"));
    }

    private static (PatternComponent, PatternMatch, string) Same(PatternComponent component, Estimate measured, double predicted, double uPredicted, string unit)
    {
        var may = Math.Max(Coverage * double.Hypot(measured.StandardError, uPredicted), SizeShare * Math.Abs(predicted));
        var matches = Math.Abs(measured.Value - predicted) <= may && measured.Value * predicted > 0;
        return (component, matches ? PatternMatch.Matches : PatternMatch.Mismatch, FormattableString.Invariant(
            $"{(component == PatternComponent.Scale ? "scale" : "rotation")} measured {measured.Value:0.0} ± {measured.StandardError:0.0}, predicted {predicted:0.0} ± {uPredicted:0.0} {unit}"));
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
