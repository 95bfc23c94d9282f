using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Published;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Evidence;

/// <summary>A blank of which nobody said how warm it was: its holes tell by how they change while it comes towards the air.</summary>
public sealed class TrendThermometerTests
{
    private const int Minutes = 60;

    // The mismatch that was computed all through the cut, in µm/m.
    private const double Believed = -10;

    // Row by row over a plate that is dimensioned from its corner.
    private static readonly PositionFeature Plate = Some.Holes() with
    {
        Datum = DatumKind.Corner, Strategy = CuttingStrategy.Interpolated,
        Points = [.. Enumerable.Range(0, 48).Select(i => new PatternPoint(100 * (i % 8), 100 * (i / 8)))],
    };

    private static readonly double Alpha = Some.Steel().AlphaMicrometresPerMetreKelvin;
    private static readonly double Reach = 2 * Plate.Points.Max(point => point.Radius) / 1000;

    // What is not known of a blank, 4 K, fades with a time constant of the length of the cut.
    private static double Fading(double share) => 4 * Math.Exp(-share);

    [Theory]
    [InlineData(-1.5)]
    [InlineData(0)]
    [InlineData(2)]
    public void It_finds_by_how_much_the_blank_was_taken_wrongly_and_what_that_makes_of_the_holes(double off)
    {
        var found = Thermometer(off)!;

        var mean = Enumerable.Range(0, 48).Average(i => Fading((i + 0.5) / 48));
        Within.Absolute(off * mean, found.Kelvins, 3 * found.UKelvins);
        Assert.InRange(found.UKelvins, 0.01, mean / 2);
        Assert.InRange(found.UMicrometres, 1, Reach * Alpha * 4 / 2);
        Assert.Equal(PatternMatch.Matches, found.Match);
        for (var i = 0; i < 48; i++)
        {
            var point = Plate.Points[i];
            Within.Absolute((Believed - (Alpha * off * Fading((i + 0.5) / 48))) * point.X / 1000, found.Predicted[i].Dx, (found.UMicrometres / 2) + 0.5);
        }
    }

    [Fact]
    public void It_says_which_way_the_part_was_taken_wrongly()
    {
        Assert.Contains("K colder than was believed", Thermometer(-1.5)!.Words, StringComparison.Ordinal);
        Assert.Contains("K warmer than was believed", Thermometer(1.5)!.Words, StringComparison.Ordinal);
    }

    // The deviation that is to be explained must not make its own explanation: whatever the mean scale, shift or turn of the holes, the trend says the same.
    [Theory]
    [InlineData(40, 0, 0)]
    [InlineData(0, 25, 0)]
    [InlineData(0, 0, 30)]
    [InlineData(-60, -10, 15)]
    public void The_mean_scale_of_the_holes_and_where_they_lie_do_not_enter(double scale, double shift, double turn)
    {
        var (plain, other) = (Thermometer(-1)!, Thermometer(-1, scale, shift, turn)!);
        Within.Absolute(plain.Kelvins, other.Kelvins, 1e-6);
        Within.Absolute(plain.Predicted[47].Dx, other.Predicted[47].Dx, 1e-6);
    }

    [Fact]
    public void A_part_that_is_known_as_well_at_the_end_as_at_the_beginning_shows_nothing() => Assert.Null(Thermometer(-1, u: _ => 4));

    [Fact]
    public void A_part_that_was_known_to_a_kelvin_needs_no_such_thermometer() => Assert.Null(Thermometer(-1, u: share => Fading(share) / 4));

    [Fact]
    public void A_part_that_would_have_been_farther_off_than_anybody_believed_has_another_trend() => Assert.Null(Thermometer(-5));

    [Fact]
    public void Holes_that_scatter_more_than_the_part_can_have_changed_show_nothing() => Assert.Null(Thermometer(-1, noise: 80));

    private static TrendThermometer? Thermometer(double off, double scale = 0, double shift = 0, double turn = 0, Func<double, double>? u = null, double noise = 4)
    {
        var fading = u ?? Fading;
        var cut = SomeCut.Of(Plate, Minutes, _ => Believed, uPart: fading);
        (int, HoleDeviation)[] measured =
        [
            .. SomeCut.Measured(Plate, share => Believed + scale - (Alpha * off * fading(share)), noise, shift)
                .Select(one => (one.Hole, one.Deviation with { Dx = one.Deviation.Dx - (turn * one.Deviation.Y / 1000), Dy = one.Deviation.Dy + (turn * one.Deviation.X / 1000) })),
        ];
        var uPredicted = Reach * Alpha * fading(0);
        return TrendThermometer.Of(cut, Plate, PatternEvidence.Of(cut, Plate, measured, uPredicted)!, uPredicted);
    }
}
