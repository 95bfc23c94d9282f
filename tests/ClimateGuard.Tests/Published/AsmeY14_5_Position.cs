using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>ASME Y14.5-2018 section 10, ISO 1101, ISO 2692 (from memory; numbers recomputed, tolerance 1e-12).</summary>
public sealed class AsmeY14_5_Position
{
    [Theory]
    [InlineData(0.03, 0.04, 0.10, 1e-12)] // p1
    [InlineData(0.1, 0.1, 0.282842712, 1e-9)] // p2, 9 digits
    [InlineData(0.05, -0.12, 0.26, 1e-12)] // p3
    public void Position_is_diametral(double dx, double dy, double expected, double tolerance) =>
        Within.Absolute(expected, TruePosition.Diametral(dx, dy), tolerance);

    [Fact]
    public void A_hole_larger_than_its_maximum_material_earns_a_bonus()
    {
        var hole = FeatureOfSize.Hole(10.0, 10.2);
        Within.Absolute(0.12, hole.BonusMillimetres(10.12, MaterialCondition.Mmc), 1e-12); // p4
        Within.Absolute(0.37, hole.AvailableToleranceMillimetres(0.25, 10.12, MaterialCondition.Mmc), 1e-12);
        Within.Absolute(9.75, hole.MaximumMaterialVirtualSizeMillimetres(0.25), 1e-12);
        Within.Absolute(0.20, hole.BonusMillimetres(10.2, MaterialCondition.Mmc), 1e-12); // p6
        Within.Absolute(0.45, hole.AvailableToleranceMillimetres(0.25, 10.2, MaterialCondition.Mmc), 1e-12);
    }

    [Fact]
    public void A_shaft_smaller_than_its_maximum_material_earns_a_bonus()
    {
        var shaft = FeatureOfSize.Shaft(19.9, 20.0);
        Within.Absolute(0.06, shaft.BonusMillimetres(19.94, MaterialCondition.Mmc), 1e-12); // p5
        Within.Absolute(20.25, shaft.MaximumMaterialVirtualSizeMillimetres(0.25), 1e-12); // ISO 2692: MMS + t
    }

    [Fact]
    public void Least_material_counts_from_the_other_limit_and_none_gives_nothing()
    {
        var hole = FeatureOfSize.Hole(10.0, 10.2);
        Within.Absolute(0.08, hole.BonusMillimetres(10.12, MaterialCondition.Lmc), 1e-12);
        Within.Absolute(10.45, hole.LeastMaterialVirtualSizeMillimetres(0.25), 1e-12); // ISO 2692: LMS + t
        Assert.Equal(0, hole.BonusMillimetres(10.12, MaterialCondition.Rfs));
    }

    [Fact]
    public void A_size_outside_its_limits_never_gives_a_negative_or_a_larger_bonus()
    {
        var hole = FeatureOfSize.Hole(10.0, 10.2);
        Assert.Equal(0, hole.BonusMillimetres(9.95, MaterialCondition.Mmc));
        Within.Absolute(0.2, hole.BonusMillimetres(10.4, MaterialCondition.Mmc), 1e-12);
        Within.Absolute(0.06, hole.ExpectedBonusMillimetres(10.1, 0.04, MaterialCondition.Mmc), 1e-12);
        Assert.Equal(0, hole.ExpectedBonusMillimetres(10.02, 0.04, MaterialCondition.Mmc));
    }

    [Theory]
    [InlineData(500, 23.6, 23, 0, 20, 17.70, 35.40)] // D, α, °C, scale α, scale °C, radial µm, position µm; tolerance 1e-9
    [InlineData(800, 8.6, 25, 0, 20, 17.20, 34.40)]
    [InlineData(300, 11.5, 18, 0, 20, -3.45, 6.90)]
    [InlineData(500, 23.6, 23, 11.5, 23, 9.075, 18.15)]
    public void A_bolt_circle_grows_about_its_centre(
        double circle, double alpha, double part, double scaleAlpha, double scale, double radial, double position)
    {
        var strain = PatternGrowth.StrainMicrometresPerMetre(alpha, new(part), scaleAlpha, new(scale));
        Within.Absolute(radial, PatternGrowth.RadialShiftMicrometres(strain, circle), 1e-9);
        var holes = PatternGrowth.BoltCircle(circle, 8);
        foreach (var hole in PatternGrowth.PositionsMicrometres(holes, new(0, 0), strain)) Within.Absolute(position, hole, 1e-9);
    }

    [Fact]
    public void A_datum_at_a_hole_doubles_the_worst_one()
    {
        double[] expected = [0, 27.094, 50.063, 65.411, 70.800, 65.411, 50.063, 27.094]; // 8 holes on 500 mm, 23.6, +3 K; 1e-3 µm
        var holes = PatternGrowth.BoltCircle(500, 8);
        var found = PatternGrowth.PositionsMicrometres(holes, holes[0], PatternGrowth.StrainMicrometresPerMetre(23.6, new(23), 0, new(20)));
        for (var i = 0; i < expected.Length; i++) Within.Absolute(expected[i], found[i], 1e-3, $"hole {i + 1}");
    }

    [Fact]
    public void A_corner_datum_sees_the_whole_diagonal_of_a_plate()
    {
        // 900 × 600 plate, usable diagonal 1.04 m, aluminium 23.8: part only 49.5 µm/K, on a steel scale of 10.5 27.7 µm/K
        PatternPoint[] far = [new(1040 * 0.6, 1040 * 0.8)];
        Within.Absolute(49.5, PatternGrowth.PositionsMicrometres(far, new(0, 0), 23.8)[0], 0.05);
        Within.Absolute(27.7, PatternGrowth.PositionsMicrometres(far, new(0, 0), 23.8 - 10.5)[0], 0.05);
    }
}
