namespace ClimateGuard.Evidence;

/// <summary>A measured pattern held against the component that its prediction is mostly made of.</summary>
/// <remarks>
/// All is taken about the datum, from which a part grows: about the centre of the holes the growth of a pattern far from its datum would pass for a
/// translation, and a translation that is none of temperature would hide it.
/// </remarks>
/// <param name="Compared">What was compared.</param>
/// <param name="Match">Whether it is there, with its size.</param>
/// <param name="Why">Both, in words.</param>
internal sealed record PatternComparison(PatternComponent Compared, PatternMatch Match, string Why)
{
    // A component agrees within two standard uncertainties, or within 30 % of what was predicted (the width of "main cause").
    private const double Coverage = 2;
    private const double SizeShare = 0.3;

    /// <summary>Compares.</summary>
    /// <param name="fit">The measured pattern taken apart.</param>
    /// <param name="expected">The predicted one.</param>
    /// <param name="predicted">Its holes.</param>
    /// <param name="uPredicted">Standard uncertainty of the predicted diametral position, in µm.</param>
    /// <param name="halves">The displacement of the second half of a two-sided pattern, or null.</param>
    public static PatternComparison Of(
        SimilarityFit fit, SimilarityFit expected, IReadOnlyList<HoleDeviation> predicted, double uPredicted, (TwoHalvesTest? Measured, TwoHalvesTest? Predicted) halves)
    {
        var reach = Math.Sqrt(predicted.Sum(hole => (hole.X * hole.X) + (hole.Y * hole.Y))) / 1000;
        var (root, u) = (Math.Sqrt(predicted.Count), Math.Max(uPredicted, 0) / 2);
        var ofScale = Math.Abs(expected.ScaleMicrometresPerMetre.Value) * reach;
        var ofTranslation = root * double.Hypot(expected.DatumTranslationX.Value, expected.DatumTranslationY.Value);
        var ofRotation = Math.Abs(expected.RotationMicroradians.Value) * reach;
        var most = Math.Max(ofScale, Math.Max(ofTranslation, ofRotation));
        if (halves is ({ } shown, { } told) && root * told.PivotDriftMicrometres >= most)
        {
            // The halves lie twice the drift apart, and so does what is not known of it.
            return Vector(
                PatternComponent.TwoHalves, "second half against the first", (shown.DisplacementX, shown.DisplacementY), (told.DisplacementX.Value, told.DisplacementY.Value), 2 * u);
        }

        if (ofScale == most) return Single(PatternComponent.Scale, "scale", fit.ScaleMicrometresPerMetre, expected.ScaleMicrometresPerMetre.Value, u * root / reach, "µm/m");
        if (ofRotation == most) return Single(PatternComponent.Rotation, "rotation", fit.RotationMicroradians, expected.RotationMicroradians.Value, u * root / reach, "µrad");
        return Vector(
            PatternComponent.Translation, "translation at the datum", (fit.DatumTranslationX, fit.DatumTranslationY), (expected.DatumTranslationX.Value, expected.DatumTranslationY.Value), u);
    }

    private static PatternComparison Single(PatternComponent component, string name, Estimate measured, double predicted, double u, string unit)
    {
        var may = Math.Max(Coverage * double.Hypot(measured.StandardError, u), SizeShare * Math.Abs(predicted));
        var matches = Math.Abs(measured.Value - predicted) <= may && measured.Value * predicted > 0;
        return new PatternComparison(component, matches ? PatternMatch.Matches : PatternMatch.Mismatch, FormattableString.Invariant(
            $"{name} measured {measured.Value:0.0} ± {measured.StandardError:0.0}, predicted {predicted:0.0} ± {u:0.0} {unit}"));
    }

    private static PatternComparison Vector(PatternComponent component, string name, (Estimate X, Estimate Y) measured, (double X, double Y) predicted, double u)
    {
        var off = double.Hypot(measured.X.Value - predicted.X, measured.Y.Value - predicted.Y);
        var may = Math.Max(Coverage * double.Hypot(double.Hypot(measured.X.StandardError, measured.Y.StandardError), u), SizeShare * double.Hypot(predicted.X, predicted.Y));
        return new PatternComparison(component, off <= may ? PatternMatch.Matches : PatternMatch.Mismatch, FormattableString.Invariant(
            $"{name} measured ({measured.X.Value:0.0}, {measured.Y.Value:0.0}), predicted ({predicted.X:0.0}, {predicted.Y:0.0}) µm"));
    }
}
