using ClimateGuard.Plant;

namespace ClimateGuard.Evidence;

/// <summary>How warm the part was against what was believed, from how its holes change while they are cut, and what that makes of the prediction.</summary>
/// <remarks>
/// A blank of which nobody said how warm it was comes towards its surroundings while it is cut. What is believed wrongly of it fades as the uncertainty of
/// its temperature does, so the holes deviate from their prediction by t + θ·J·rᵢ + s·rᵢ − c·α·u(τᵢ)·rᵢ, with u(τ) the uncertainty of the part's
/// temperature at the moment of the hole and c how many of them it was off. Least squares over the holes with t, θ and s free: s takes all of the mean scale,
/// so the deviation that is to be explained does not enter c, and a prediction corrected by it does not confirm itself (F.1). Only the change from
/// hole to hole does. The expectation of c before is 0 ± 1; both are weighted by their uncertainty (JCGM 100, weighted mean). It is used only where the holes know c
/// twice as well as what was believed. Where the uncertainty hardly changes during the cut they do not, and there is none.
/// </remarks>
public sealed record TrendThermometer
{
    // The holes must know the temperature twice as well as what was believed before.
    private const double MostUncertain = 0.5;
    // Only what is not known of the blank fades. What is not known of a film of coolant or a sensor, half a kelvin or so, does not, and must be small beside it. In K, at
    // the first hole, and the share that is left of it at the last.
    private const double LeastUncertain = 2;
    private const double MostLeft = 0.75;
    // Farther off than this something else is wrong than the temperature of the blank, and the trend is another one.
    private const double MostOff = 3;
    // The course of the uncertainty is that of the error only so far: a tenth of the correction is not known (common practice, no source).
    private const double UShape = 0.1;
    private const int FewestHoles = 8;

    /// <summary>Part minus what was believed at the mean of the cut, in K, from the trend and the belief together.</summary>
    public required double Kelvins { get; init; }

    /// <summary>Its standard uncertainty, in K.</summary>
    public required double UKelvins { get; init; }

    /// <summary>The predicted deviation of each measured hole with it, in the order of the pattern.</summary>
    public required IReadOnlyList<HoleDeviation> Predicted { get; init; }

    /// <summary>Standard uncertainty of the predicted diametral position with it, in µm.</summary>
    public required double UMicrometres { get; init; }

    /// <summary>Whether the measured pattern is the predicted one with it.</summary>
    public required PatternMatch Match { get; init; }

    /// <summary>What it says, in words.</summary>
    public string Words => FormattableString.Invariant(
        $"the holes change during the cut as those of a part that is {Math.Abs(Kelvins):0.0} ± {UKelvins:0.0} K {(Kelvins < 0 ? "colder" : "warmer")} than was believed");

    /// <summary>Reads the trend of a pattern.</summary>
    /// <param name="cut">The cut with its samples.</param>
    /// <param name="feature">The pattern.</param>
    /// <param name="pattern">Its holes with their prediction.</param>
    /// <param name="uPredicted">Standard uncertainty of the predicted diametral position, in µm.</param>
    /// <returns>The thermometer, or null where the trend does not know the temperature better than what was believed.</returns>
    public static TrendThermometer? Of(CutExposure cut, PositionFeature feature, PatternEvidence pattern, double uPredicted)
    {
        ArgumentNullException.ThrowIfNull(cut);
        ArgumentNullException.ThrowIfNull(feature);
        ArgumentNullException.ThrowIfNull(pattern);
        if (pattern.Measured.Count < FewestHoles) return null;
        ExposureSample[] known = [.. cut.Of(feature.Id).Where(sample => sample.Known && double.IsFinite(sample.UPartKelvins))];
        if (known.Length < 2 || cut.Machine.PartCompensated) return null;
        double[] u = [.. pattern.CutAt.Select(at => known.MinBy(sample => (sample.Time - at).Duration())!.UPartKelvins)];
        var (first, last) = (u[Place(pattern.CutAt, pattern.CutAt.Min())], u[Place(pattern.CutAt, pattern.CutAt.Max())]);
        if (first < LeastUncertain || last > MostLeft * first) return null;
        if (Fitted(pattern, u, cut.Part.Material.AlphaMicrometresPerMetreKelvin) is not { } own || own.StandardError > MostUncertain || Math.Abs(own.Value) > MostOff) return null;
        var weight = 1 / (1 + (own.StandardError * own.StandardError));
        return With(cut, pattern, u, (own.Value * weight, double.Hypot(own.StandardError * Math.Sqrt(weight), UShape * own.Value * weight)), uPredicted, known.Max(sample => sample.UPartKelvins));
    }

    private static int Place(IReadOnlyList<DateTimeOffset> times, DateTimeOffset of) => times.ToList().IndexOf(of);

    private static Estimate? Fitted(PatternEvidence pattern, double[] u, double alpha)
    {
        HoleDeviation[] rest = [.. pattern.Measured.Zip(pattern.Predicted, (hole, predicted) => hole.Deviation with { Dx = hole.Deviation.Dx - predicted.Dx, Dy = hole.Deviation.Dy - predicted.Dy })];
        var design = PatternDesign.Of(rest, FewestHoles);
        double[] fading = [.. rest.Select((hole, i) => -alpha * u[i] * hole.X / 1000), .. rest.Select((hole, i) => -alpha * u[i] * hole.Y / 1000)];
        try
        {
            var solution = design.Solve([design.TranslationX, design.TranslationY, design.Scale, design.Rotation, fading], nameof(pattern));
            var (sigma, freedom) = solution.Scatter(null);
            return new Estimate(solution.Coefficients[4], sigma * Math.Sqrt(solution.Inverse[4][4]), freedom);
        }
        catch (ArgumentException)
        {
            // An uncertainty that stays the same all through the cut fades as nothing does, and is a scale like any other.
            return null;
        }
    }

    private static TrendThermometer With(CutExposure cut, PatternEvidence pattern, double[] u, (double Value, double U) off, double uPredicted, double uMost)
    {
        var alpha = cut.Part.Material.AlphaMicrometresPerMetreKelvin;
        HoleDeviation[] predicted =
        [
            .. pattern.Predicted.Select((hole, i) => hole with { Dx = hole.Dx - (off.Value * alpha * u[i] * hole.X / 1000), Dy = hole.Dy - (off.Value * alpha * u[i] * hole.Y / 1000) }),
        ];
        // The uncertainty of a prediction holds the largest of the part's temperature at the farthest hole; what is left of it stays, and the trend's own takes its place.
        var ofPart = 2 * alpha * uMost * predicted.Max(hole => double.Hypot(hole.X, hole.Y)) / 1000;
        var left = double.Hypot(Math.Sqrt(Math.Max(0, (uPredicted * uPredicted) - (ofPart * ofPart))), ofPart * off.U);
        var match = PatternComparison.Of(pattern.Fit, SimilarityFit.Of(predicted, 1), predicted, left, pattern.Halves).Match;
        return new TrendThermometer { Kelvins = off.Value * u.Average(), UKelvins = off.U * u.Average(), Predicted = predicted, UMicrometres = left, Match = match };
    }
}
