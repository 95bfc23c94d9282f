using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>The components of a pattern that stand out of the scatter, the largest first.</summary>
public static class PatternSigns
{
    /// <summary>Reads a fit.</summary>
    /// <param name="fit">The pattern taken apart.</param>
    /// <param name="strategy">How it was cut.</param>
    /// <param name="trend">Its trend with the order of holes, or null when the order is unknown.</param>
    /// <param name="halves">The test of its halves, or null when it was not cut in halves.</param>
    /// <param name="level">Of each test, in (0, 1); 0.01 keeps five tests on one part honest.</param>
    /// <returns>What stands out, with its share of the mean squared deviation where it has one; residual only when nothing does.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The level lies outside (0, 1).</exception>
    public static IReadOnlyList<PatternSign> Read(
        SimilarityFit fit, CuttingStrategy strategy, HoleOrderTrend? trend = null, TwoHalvesTest? halves = null, double level = 0.01)
    {
        ArgumentNullException.ThrowIfNull(fit);
        EvidenceInput.Share(level);
        double n = fit.Residuals.Count;
        var scale = Squares(fit, fit.ScaleMicrometresPerMetre);
        var rotation = Squares(fit, fit.RotationMicroradians);
        var translation = n * fit.TranslationLength * fit.TranslationLength;
        var residual = n * fit.ResidualRms * fit.ResidualRms;
        var total = scale + rotation + translation + residual;
        List<PatternSign> signs = [];
        void Keep(PatternComponent component, double p, double squares)
        {
            if (p <= level) signs.Add(new PatternSign(PatternMeaning.Of(component, strategy), p, total > 0 ? squares / total : 0));
        }

        Keep(PatternComponent.Scale, fit.ScaleMicrometresPerMetre.PValue(), scale);
        Keep(PatternComponent.Rotation, fit.RotationMicroradians.PValue(), rotation);
        Keep(PatternComponent.Translation, TranslationP(fit), translation);
        signs = [.. signs.OrderByDescending(sign => sign.ShareOfSquares)];
        // Trend and halves live in the residual of the fit; they name the mechanism and take no share of their own.
        if (trend is not null) Keep(PatternComponent.ScaleGrowingWithOrder, trend.PValue, 0);
        if (halves is not null) Keep(PatternComponent.TwoHalves, halves.PValue, 0);
        if (signs.Count == 0) signs.Add(new PatternSign(PatternMeaning.Of(PatternComponent.ResidualOnly, strategy), 1, total > 0 ? residual / total : 1));
        return signs;
    }

    private static double TranslationP(SimilarityFit fit)
    {
        if (fit.TranslationLength == 0) return 1;
        var u = fit.TranslationX.StandardError;
        var squares = u > 0 ? fit.TranslationLength / u * (fit.TranslationLength / u) : double.PositiveInfinity;
        return double.IsInfinity(fit.DegreesOfFreedom) ? Tail.ChiSquare(squares, 2) : Tail.FisherSnedecor(squares / 2, 2, fit.DegreesOfFreedom);
    }

    // s·√Σr'² squared: what the component adds to the sum of squared deviations, from u = σ/√Σr'².
    private static double Squares(SimilarityFit fit, Estimate component)
    {
        var centred = fit.PlaceSpreadMetres * component.Value;
        return centred * centred;
    }
}

/// <summary>A component that stands out; equality is by value.</summary>
/// <param name="Meaning">What it is and what it suspects.</param>
/// <param name="PValue">Of "this component is scatter", in [0, 1].</param>
/// <param name="ShareOfSquares">Of the sum of squared deviations, in [0, 1]; 0 for trend and halves, which take no share of their own.</param>
public sealed record PatternSign(PatternMeaning Meaning, double PValue, double ShareOfSquares);
