using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Published;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Evidence;

/// <summary>A disc of 24 holes on 900 mm, cut in 35 minutes while its coolant warms: the part is a thermometer, and a time series.</summary>
public sealed class PatternEvidenceTests
{
    private const double RadiusMetres = 0.450;
    private static readonly PositionFeature Circle = Some.Holes(radiusMillimetres: 450, count: 24) with { Strategy = CuttingStrategy.Interpolated };

    // eps from −34.4 to −60 µm/m: the diametral effect 2·R·|eps| grows from 31 to 54 µm, as in the reference model of the demo week.
    private const double First = -34.4;
    private const double Last = -60.0;

    [Fact]
    public void A_warming_part_shows_its_scale_its_trend_and_the_size_that_was_predicted()
    {
        var evidence = Of(Measured(noise: 4, shift: 0), First, Last)!;

        Assert.Equal(PatternMatch.Matches, evidence.Match);
        Assert.True(evidence.ShowsTrend);
        Assert.InRange(evidence.WithinPart!.Slope.Value, 0.5, 1.5);
        Within.Absolute((First + Last) / 2, evidence.Fit.ScaleMicrometresPerMetre.Value, 3 * evidence.Fit.ScaleMicrometresPerMetre.StandardError);

        // u(s) = σ/(R·√n) = 4/(0.45·√24) = 1.81 µm/m, which is 0.16 K in steel of 11.5 µm/(m·K).
        Within.Relative(4 / (RadiusMetres * Math.Sqrt(24)), 1.8144, 1e-4);
        Within.Absolute(1.81 / 11.5, evidence.EquivalentKelvins.StandardError, 0.25);
        Assert.Equal(PatternComponent.Scale, evidence.Signs[0].Meaning.Component);
    }

    [Fact]
    public void A_shifted_pattern_is_not_what_a_warm_part_makes()
    {
        var evidence = Of(Measured(noise: 4, shift: 14, eps: _ => 0), First, Last)!;

        Assert.Equal(PatternMatch.Mismatch, evidence.Match);
        Assert.False(evidence.ShowsTrend);
        Assert.Equal(PatternComponent.Translation, evidence.Signs[0].Meaning.Component);
    }

    [Fact]
    public void A_part_at_rest_shows_no_trend_of_its_own() => Assert.Null(Of(Measured(noise: 4, shift: 0, eps: _ => -2), -2, -2)!.WithinPart);

    [Fact]
    public void Three_holes_are_not_taken_apart() => Assert.Null(Of([.. Measured(4, 0).Take(3)], First, Last));

    [Theory]
    [InlineData(CuttingStrategy.Interpolated, null, 10, 0)]
    [InlineData(CuttingStrategy.TableIndexed, null, 0, 10)]
    [InlineData(CuttingStrategy.TwoSided, null, 10, 0)]
    [InlineData(CuttingStrategy.TwoSided, RotaryAxis.A, 10, 0)]
    [InlineData(CuttingStrategy.TwoSided, RotaryAxis.B, -10, 0)]
    [InlineData(CuttingStrategy.TwoSided, RotaryAxis.C, -10, 0)]
    public void Drift_of_an_axis_lands_where_the_way_of_cutting_puts_it(CuttingStrategy strategy, RotaryAxis? turnedAbout, double dx, double dy)
    {
        // A hole at 12 o'clock (0, 450): with the table indexed, X drift is radial there, which is +y in the part.
        var hole = PatternPrediction.At(new PatternPoint(0, 450), 0, new AxisDrift(10, 0, 0), strategy, turnedAbout);
        Assert.Equal((dx, dy), (Math.Round(hole.Dx, 9), Math.Round(hole.Dy, 9)));
    }

    // A plate from its corner: growth moves the middle of its holes by 23 µm, so a part that somebody set 12 µm off still shows its scale, and one that did not
    // grow at all but was set off by as much does not.
    [Fact]
    public void A_pattern_far_from_its_datum_is_held_against_its_scale_not_against_where_its_middle_went()
    {
        var plate = Circle with { Datum = DatumKind.Corner, Points = [.. Circle.Points.Select(point => new PatternPoint(point.X + 500, point.Y + 500))] };
        PatternEvidence Plate(Func<double, double> eps, double shift) => PatternEvidence.Of(SomeCut.Of(plate, 35, _ => 46), plate, SomeCut.Measured(plate, eps, 4, shift), 10)!;

        var grown = Plate(_ => 46, 12);
        Assert.Equal((PatternComponent.Scale, PatternMatch.Matches), (grown.Compared, grown.Match));
        Assert.Equal(PatternMatch.Mismatch, Plate(_ => 0, 23).Match);
    }

    private static PatternEvidence? Of(IReadOnlyList<(int, HoleDeviation)> measured, double first, double last) =>
        PatternEvidence.Of(SomeCut.Of(Circle, 35, share => first + ((last - first) * share)), Circle, measured, 3);

    private static IReadOnlyList<(int, HoleDeviation)> Measured(double noise, double shift, Func<double, double>? eps = null) =>
        SomeCut.Measured(Circle, eps ?? (share => First + ((Last - First) * share)), noise, shift);
}
