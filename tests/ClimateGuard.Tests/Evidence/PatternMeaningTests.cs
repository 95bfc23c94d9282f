using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Tests.Evidence;

public sealed class PatternMeaningTests
{
    [Theory]
    [InlineData(PatternComponent.Translation, CuttingStrategy.Interpolated, "drift since the datum", true)]
    [InlineData(PatternComponent.Translation, CuttingStrategy.TableIndexed, "set off centre", false)]
    [InlineData(PatternComponent.Scale, CuttingStrategy.Interpolated, "part against scale temperature", true)]
    [InlineData(PatternComponent.Scale, CuttingStrategy.TableIndexed, "radial axis", true)]
    [InlineData(PatternComponent.Rotation, CuttingStrategy.TableIndexed, "across the radius", true)]
    [InlineData(PatternComponent.Rotation, CuttingStrategy.Interpolated, "clocking", false)]
    [InlineData(PatternComponent.ScaleGrowingWithOrder, CuttingStrategy.Interpolated, "coolant", true)]
    [InlineData(PatternComponent.TwoHalves, CuttingStrategy.TwoSided, "pivot", true)]
    [InlineData(PatternComponent.ResidualOnly, CuttingStrategy.Interpolated, "tool", false)]
    public void What_a_component_suspects_depends_on_how_the_pattern_was_cut(
        PatternComponent component, CuttingStrategy strategy, string suspect, bool thermal)
    {
        var meaning = PatternMeaning.Of(component, strategy);
        Assert.Contains(suspect, meaning.SuspectFirst, StringComparison.Ordinal);
        Assert.Equal(thermal, meaning.Thermal);
    }

    [Fact]
    public void Every_component_has_a_meaning_under_every_strategy()
    {
        foreach (var component in Enum.GetValues<PatternComponent>())
        {
            foreach (var strategy in Enum.GetValues<CuttingStrategy>())
                Assert.NotEmpty(PatternMeaning.Of(component, strategy).Then);
        }
    }

    [Fact]
    public void A_grown_and_shifted_circle_shows_scale_before_translation_and_no_rotation()
    {
        var fit = SimilarityFit.Of([.. Circle(24, 400, scale: 40, dx: 3)], 1);
        var signs = PatternSigns.Read(fit, CuttingStrategy.Interpolated);
        Assert.Equal([PatternComponent.Scale, PatternComponent.Translation], signs.Select(sign => sign.Meaning.Component));
        Assert.InRange(signs[0].ShareOfSquares, 0.96, 0.97); // 16²/(16² + 3²) = 0.966
    }

    [Fact]
    public void Scatter_alone_is_residual_only()
    {
        double[] noise = [0.4, -0.7, 0.2, 0.9, -0.3, -0.6, 0.5, -0.1];
        HoleDeviation[] holes = [.. Circle(8, 300).Select((hole, i) => hole with { Dx = noise[i], Dy = noise[(i * 3) % 8] })];
        var signs = PatternSigns.Read(SimilarityFit.Of(holes, 1), CuttingStrategy.Interpolated);
        Assert.Equal(PatternComponent.ResidualOnly, Assert.Single(signs).Meaning.Component);
    }

    [Fact]
    public void A_part_that_warms_while_it_is_cut_shows_a_scale_that_falls_with_the_order_of_holes()
    {
        HoleDeviation[] holes = [.. Circle(24, 400).Select((hole, i) => hole with { Dx = -0.002 * i * hole.X, Dy = -0.002 * i * hole.Y })];
        var trend = HoleOrderTrend.Of(holes, knownScatterMicrometres: 1);
        Assert.InRange(trend.ScalePerStep.Value, -2.0000001, -1.9999999); // −0.002 µm/mm a hole
        var signs = PatternSigns.Read(SimilarityFit.Of(holes, 1), CuttingStrategy.Interpolated, trend);
        Assert.Contains(signs, sign => sign.Meaning.Component == PatternComponent.ScaleGrowingWithOrder);
    }

    private static IEnumerable<HoleDeviation> Circle(int count, double radius, double scale = 0, double dx = 0) =>
        new BoltCircle(radius, count, 0).Points().Select(p => new HoleDeviation(p.X, p.Y, (scale * p.X / 1000) + dx, scale * p.Y / 1000));
}
