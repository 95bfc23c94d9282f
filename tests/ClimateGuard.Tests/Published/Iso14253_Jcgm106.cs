using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Published;

/// <summary>ISO 14253-1:2017 decision rule and JCGM 106:2012 conformance probability (examples from memory, recomputed).</summary>
public sealed class Iso14253_Jcgm106
{
    [Theory]
    [InlineData(0.5, 0)] // Φ⁻¹(p), tolerance 1e-12
    [InlineData(0.95, 1.644853626951473)]
    [InlineData(0.975, 1.959963984540054)]
    [InlineData(0.99, 2.326347874040841)]
    [InlineData(0.999, 3.090232306167813)]
    [InlineData(0.05, -1.644853626951473)]
    [InlineData(1e-9, -5.997807015007687)]
    public void Normal_quantiles(double probability, double expected) =>
        Within.Absolute(expected, StandardNormal.Quantile(probability), 1e-12);

    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 0.841344746068543)]
    [InlineData(-1, 0.158655253931457)]
    [InlineData(3, 0.998650101968370)]
    public void Normal_probabilities(double z, double expected) => Within.Absolute(expected, StandardNormal.Cdf(z), 1e-14);

    [Fact]
    public void The_far_tail_keeps_its_digits() => Within.Relative(7.61985302416053e-24, StandardNormal.Cdf(-10), 1e-12);

    [Fact]
    public void The_guard_band_is_1_65_u_at_95_percent()
    {
        Within.Absolute(1.65 * 2, Conformance.GuardBand(2), 0.02); // ISO 14253-1:2017: 1.65·u
        Within.Absolute(3.289707254, Conformance.GuardBand(2), 1e-9);
    }

    [Fact]
    public void Breakdown_voltage_below_an_upper_limit()
    {
        Within.Absolute(0.92, Conformance.BelowUpper(-5.47, 0.05, -5.40), 0.005); // JCGM 106 example, printed
        Within.Absolute(0.919243341, Conformance.BelowUpper(-5.47, 0.05, -5.40), 1e-9);
    }

    [Fact]
    public void Burst_pressure_above_a_lower_limit()
    {
        Within.Absolute(0.99, Conformance.AboveLower(509.7, 8.6, 490), 0.005);
        Within.Absolute(0.989009547, Conformance.AboveLower(509.7, 8.6, 490), 1e-9);
    }

    [Fact]
    public void Oil_viscosity_between_two_limits()
    {
        Within.Absolute(0.66, Conformance.Between(13.6, 1.8, 12.5, 16.3), 0.005);
        Within.Absolute(0.662629786, Conformance.Between(13.6, 1.8, 12.5, 16.3), 1e-9);
    }

    [Fact]
    public void A_value_at_the_limit_has_one_half()
    {
        Within.Absolute(0.5, Conformance.BelowUpper(50, 2, 50), 1e-12);
        Within.Absolute(0.933192799, Conformance.Between(47, 2, 0, 50), 1e-9);
    }

    [Fact]
    public void The_largest_accepted_value_keeps_the_guard_band()
    {
        Within.Absolute(46.710292746, Conformance.LargestAccepted(2, 50), 1e-9);
        var interval = Conformance.AcceptanceInterval(2, 0, 50);
        Assert.NotNull(interval);
        Within.Absolute(46.710292746, interval.Value.Highest, 1e-9);
        Within.Absolute(3.289707254, interval.Value.Lowest, 1e-9);
    }

    [Fact]
    public void Where_u_fills_the_tolerance_nothing_can_be_accepted() =>
        Assert.Null(Conformance.AcceptanceInterval(10, -10, 10)); // P in the middle is 68 %

    [Fact]
    public void Without_uncertainty_the_plain_comparison_decides()
    {
        Assert.Equal(1, Conformance.Between(5, 0, 0, 5));
        Assert.Equal(0, Conformance.Between(5.001, 0, 0, 5));
        Assert.Equal((0.0, 5.0), Conformance.AcceptanceInterval(0, 0, 5));
    }

    [Theory]
    [InlineData(0.95, 1, 12.706204736174698)] // Student's t, two-sided (any table; recomputed)
    [InlineData(0.95, 5, 2.570581835636314)]
    [InlineData(0.99, 16, 2.920781622499995)]
    [InlineData(0.9545, 10, 2.283720)]
    [InlineData(0.95, double.PositiveInfinity, 1.959963984540054)]
    public void Coverage_factors(double probability, double degrees, double expected) =>
        Within.Absolute(expected, CoverageFactor.TwoSided(probability, degrees), probability == 0.9545 ? 1e-3 : 1e-8);
}
