using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Published;

namespace ClimateGuard.Tests.Evidence;

/// <summary>
/// An invented plate of eight holes, off-centre from its datum. Expected values from R 4.2.2: lm(d ~ 0 + tx + ty + s + r) on both axes
/// stacked, s = (X − x̄, Y − ȳ)/1000, r = (−(Y − ȳ), X − x̄)/1000; the same with uncentred places for the datum; with two columns for the
/// second half; with s times time for the trend.
/// </summary>
public sealed class SimilarityFitTests
{
    private static readonly HoleDeviation[] Plate =
    [
        new(100, 50, 3.1, -2.0), new(300, 50, 1.4, -1.1), new(500, 50, -2.2, 0.2), new(100, 250, 4.0, -4.6),
        new(500, 250, -1.5, -2.9), new(100, 450, 5.2, -7.7), new(300, 450, 2.9, -6.4), new(500, 450, 0.3, -5.0),
    ];

    private static readonly bool[] SecondHalf = [false, false, false, false, true, true, true, true];
    private static readonly double[] Minutes = [0, 1.5, 3, 4.5, 6, 9, 10.5, 12];

    [Fact]
    public void Translation_rotation_and_scale_with_their_uncertainties()
    {
        var fit = SimilarityFit.Of(Plate);
        Within.Absolute(1.65, fit.TranslationX.Value, 1e-12);
        Within.Absolute(-3.6875, fit.TranslationY.Value, 1e-12);
        Within.Absolute(0.393794089242363, fit.TranslationX.StandardError, 1e-12);
        Within.Absolute(-13.291666666666659, fit.ScaleMicrometresPerMetre.Value, 1e-11);
        Within.Absolute(1.607657637279686, fit.ScaleMicrometresPerMetre.StandardError, 1e-12);
        Within.Absolute(0.208333333333334, fit.RotationMicroradians.Value, 1e-12);
        Within.Absolute(1.607657637279686, fit.RotationMicroradians.StandardError, 1e-12);
        Within.Absolute(1.11381788357782, fit.Scatter, 1e-12);
        Within.Absolute(1.36414274057617, fit.ResidualRms, 1e-12);
        Assert.Equal(12, fit.DegreesOfFreedom);
        Within.Relative(2.67996233654044e-06, fit.ScaleMicrometresPerMetre.PValue(), 1e-9);
    }

    [Fact]
    public void The_same_pattern_seen_from_its_datum()
    {
        var fit = SimilarityFit.Of(Plate);
        Within.Absolute(5.68958333333333, fit.DatumTranslationX.Value, 1e-11);
        Within.Absolute(-0.427083333333335, fit.DatumTranslationY.Value, 1e-11);
        Within.Absolute(0.741093552950325, fit.DatumTranslationX.StandardError, 1e-12);
        var covariance = fit.DatumCovariance();
        Within.Absolute(0.549219654224537, covariance[0][0], 1e-12); // vcov(lm(d ~ 0 + tx + ty + s0 + r0))
        Within.Absolute(-0.775368923611111, covariance[0][2], 1e-12);
        Within.Absolute(0.646140769675926, covariance[0][3], 1e-12);
        Within.Absolute(-0.646140769675926, covariance[1][2], 1e-12);
        Within.Absolute(-0.775368923611111, covariance[1][3], 1e-12);
        Within.Absolute(2.58456307870370, covariance[2][2], 1e-11);
    }

    [Fact]
    public void A_known_scatter_gives_uncertainties_of_its_own()
    {
        var fit = SimilarityFit.Of(Plate, knownScatterMicrometres: 1.2);
        Within.Absolute(0.424264068711929, fit.TranslationX.StandardError, 1e-13); // R: 1.2*sqrt(diag(solve(crossprod(X))))
        Within.Absolute(1.732050807568877, fit.ScaleMicrometresPerMetre.StandardError, 1e-12);
        Assert.Equal(double.PositiveInfinity, fit.DegreesOfFreedom);
    }

    [Fact]
    public void A_bolt_circle_is_a_thermometer_to_a_fifth_of_a_kelvin()
    {
        // u(s) = σ/(R·√n): 4 µm per axis, R 450 mm, 24 holes give 1.814 µm/m; over 11.5 µm/(m·K) 0.16 K.
        HoleDeviation[] circle = [.. new BoltCircle(450, 24, 0).Points().Select(p => new HoleDeviation(p.X, p.Y, 0.03 * p.X, 0.03 * p.Y))];
        var fit = SimilarityFit.Of(circle, knownScatterMicrometres: 4);
        Within.Absolute(1.81443684650606, fit.ScaleMicrometresPerMetre.StandardError, 1e-12); // R
        Within.Absolute(30, fit.ScaleMicrometresPerMetre.Value, 1e-10);
        Within.Absolute(0.16, fit.EquivalentMismatchKelvin(11.5).StandardError, 0.005);
        Within.Absolute(27, fit.WorstPositionOf(false, false, true), 1e-9); // D·|ε| = 0.9 m · 30 µm/m
    }

    [Fact]
    public void Forty_eight_micrometres_per_metre_in_steel_are_four_kelvin()
    {
        HoleDeviation[] circle = [.. new BoltCircle(300, 6, 10).Points().Select(p => new HoleDeviation(p.X, p.Y, -0.0479 * p.X, -0.0479 * p.Y))];
        var mismatch = SimilarityFit.Of(circle, 1).EquivalentMismatchKelvin(11.7, 0.35);
        Within.Absolute(-4.1, mismatch.Value, 0.01); // −47.9/11.7: the part was 4.1 K warmer than the scale
        // √((1/(0.3·√6)/11.7)² + (4.094·0.35/11.7)²), by hand
        Within.Absolute(0.16890, mismatch.StandardError, 1e-4);
    }

    [Fact]
    public void Two_halves_cut_with_a_half_turn_between_are_told_apart()
    {
        var test = TwoHalvesTest.Of(Plate, SecondHalf);
        Within.Absolute(2.642857142857141, test.DisplacementX.Value, 1e-11);
        Within.Absolute(0.585714285714285, test.DisplacementY.Value, 1e-11);
        Within.Absolute(0.737061872627823, test.DisplacementX.StandardError, 1e-11);
        Within.Relative(0.0139870237801015, test.PValue, 1e-9); // anova(f, f2)
        Within.Absolute(1.35349, test.PivotDriftMicrometres, 1e-5); // half of √(2.642857² + 0.585714²)
        Within.Relative(0.0513844689765776, TwoHalvesTest.Of(Plate, SecondHalf, 1.2).PValue, 1e-9); // pchisq(5.9368, 2)
    }

    [Fact]
    public void A_trend_with_the_time_of_the_cut()
    {
        var trend = HoleOrderTrend.Of(Plate, Minutes);
        Within.Absolute(0.0944486309972359, trend.ScalePerStep.Value, 1e-11);
        Within.Absolute(0.520725573382327, trend.ScalePerStep.StandardError, 1e-11);
        Within.Relative(0.859369105289405, trend.PValue, 1e-9);
        Within.Absolute(-13.297569706103987, trend.MeanScale.Value, 1e-10);
    }

    [Fact]
    public void Holes_at_one_place_have_no_scale()
    {
        HoleDeviation[] heap = [new(100, 100, 1, 1), new(100, 100, 2, 1), new(100, 100, 1, 2)];
        Assert.Contains("one place", Assert.Throws<ArgumentException>(() => SimilarityFit.Of(heap)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_holes_need_a_known_scatter()
    {
        HoleDeviation[] two = [new(0, 0, 1, 0), new(100, 0, 3, 0)];
        Assert.Throws<ArgumentException>(() => SimilarityFit.Of(two));
        Within.Absolute(20, SimilarityFit.Of(two, 1).ScaleMicrometresPerMetre.Value, 1e-10); // 2 µm over 0.1 m
    }

    [Fact]
    public void A_hole_that_is_not_a_number_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SimilarityFit.Of([new(0, 0, double.NaN, 0), new(1, 0, 0, 0), new(0, 1, 0, 0)]));
}
