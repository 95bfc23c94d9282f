using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>JCGM 100:2008 (GUM), annex H.1, end-gauge calibration: l = lS + d − lS·(δα·θ + αS·δθ). In nm and °C.</summary>
public sealed class Jcgm100_H1
{
    private const double GaugeNanometres = 50_000_623;
    private const double AlphaPerKelvin = 11.5e-6;

    private static UncertaintyBudget Budget() => new(
        GaugeNanometres + 215, // H.1.1: δα and δθ are estimated as 0
        [
            new("lS", GaugeNanometres, 25, 1, 18),
            new("d", 215, 9.7, 1, 25.6),
            new("alphaS", AlphaPerKelvin, 1.2e-6, 0),
            new("theta", -0.1, 0.41, 0),
            new("deltaAlpha", 0, 0.58e-6, -GaugeNanometres * -0.1, 50),
            new("deltaTheta", 0, 0.029, -GaugeNanometres * AlphaPerKelvin, 2),
        ],
        products: [new("deltaAlpha", "theta", -GaugeNanometres), new("alphaS", "deltaTheta", -GaugeNanometres)]);

    [Fact]
    public void The_length_is_that_of_the_guide() => Assert.Equal(50_000_838.0, Budget().Estimate);

    [Theory]
    [InlineData("lS", 25, 0.5)] // table H.1
    [InlineData("d", 9.7, 0.05)]
    [InlineData("deltaAlpha", 2.9, 0.05)]
    [InlineData("deltaTheta", 16.6, 0.1)]
    [InlineData("alphaS", 0, 0)]
    [InlineData("theta", 0, 0)]
    public void Each_contribution_is_that_of_table_H_1(string label, double nanometres, double tolerance) =>
        Within.Absolute(nanometres, Budget().Contributions.Single(line => line.Label == label).Magnitude, tolerance, label);

    [Fact]
    public void The_difference_has_its_three_contributions_and_their_degrees_of_freedom()
    {
        // H.1.3.2: 5.8, 3.9, 6.7 nm with 24, 5, 8
        var d = new UncertaintyBudget(215, [new("random", 0, 5.8, 1, 24), new("comparator random", 0, 3.9, 1, 5), new("comparator systematic", 0, 6.7, 1, 8)]);
        Within.Absolute(9.7, d.CombinedStandardUncertainty, 0.05);
        Within.Absolute(9.681942, d.CombinedStandardUncertainty, 1e-6); // recomputed
        Within.Absolute(25.447251, d.EffectiveDegreesOfFreedom, 1e-6); // recomputed, from the unrounded uncertainty
        Within.Absolute(25.6, d.EffectiveDegreesOfFreedom, 0.2); // printed from the rounded 9.7
    }

    [Fact]
    public void The_combined_uncertainty_is_32_nanometres()
    {
        Within.Absolute(32, Budget().CombinedStandardUncertainty, 0.5); // H.1.4
        Within.Absolute(31.710610, Budget().CombinedStandardUncertainty, 1e-5); // recomputed
    }

    [Fact]
    public void The_effective_degrees_of_freedom_are_16() =>
        Within.Absolute(16.656063, Budget().EffectiveDegreesOfFreedom, 0.05); // H.1.6 prints 16 after truncation

    [Fact]
    public void The_coverage_factor_of_99_percent_is_2_92()
    {
        Within.Absolute(2.92, CoverageFactor.TwoSided(0.99, 16), 0.005); // H.1.6
        Within.Absolute(2.920781622, CoverageFactor.TwoSided(0.99, 16), 1e-9); // recomputed
    }

    [Fact]
    public void The_expanded_uncertainty_is_93_nanometres()
    {
        Within.Absolute(93, Budget().ExpandedUncertainty(0.99), 1); // H.1.6
        Within.Absolute(92.619766, Budget().ExpandedUncertainty(0.99), 1e-4); // recomputed, 16 degrees of freedom
        Within.Absolute(92.139848, Budget().ExpandedUncertaintyInterpolated(0.99), 1e-3); // recomputed, 16.656
    }

    [Fact]
    public void The_product_terms_of_second_order_raise_it_to_34()
    {
        var budget = Budget();
        Within.Absolute(11.7, budget.Magnitude(budget.Products[0]), 0.3); // H.1.7, from memory
        Within.Absolute(1.7, budget.Magnitude(budget.Products[1]), 0.3); // H.1.7, from memory
        Within.Absolute(11.890148, budget.Magnitude(budget.Products[0]), 1e-5); // recomputed
        Within.Absolute(1.740022, budget.Magnitude(budget.Products[1]), 1e-5); // recomputed
        Within.Absolute(33.911150, budget.StandardUncertaintyWithProducts, 1e-5); // recomputed; printed 34
    }

    [Theory]
    [InlineData(0.1, 50)] // H.1.3.5: u(δα) reliable to 10 %
    [InlineData(0.5, 2)] // H.1.3.6: u(δθ) reliable to 50 %
    public void Reliability_gives_degrees_of_freedom(double share, double expected) =>
        Within.Absolute(expected, TypeB.DegreesOfFreedom(share), 1e-12);

    [Fact]
    public void The_standard_uncertainties_of_limits_are_those_of_the_annex()
    {
        Within.Absolute(1.2e-6, TypeB.Rectangular(2e-6), 0.05e-6); // H.1.3.3
        Within.Absolute(0.58e-6, TypeB.Rectangular(1e-6), 0.005e-6); // H.1.3.5
        Within.Absolute(0.029, TypeB.Rectangular(0.05), 0.0005); // H.1.3.6
        Within.Absolute(0.35, TypeB.Arcsine(0.5), 0.005); // H.1.3.4
        Within.Absolute(0.41, double.Hypot(0.2, TypeB.Arcsine(0.5)), 0.005); // H.1.3.4
        Within.Absolute(25, TypeB.FromExpanded(75, 3), 1e-12); // H.1.3.1
    }
}
