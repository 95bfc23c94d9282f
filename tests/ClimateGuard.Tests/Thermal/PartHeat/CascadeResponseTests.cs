using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Thermal.PartHeat;

public sealed class CascadeResponseTests
{
    [Theory]
    [InlineData(1.0, 2.0, 0.232544157934830)] // e^-1 - e^-2
    [InlineData(2.0, 1.0, 0.232544157934830)]
    [InlineData(0.0, 1.0, 0.632120558828558)] // 1 - e^-1
    [InlineData(1.0, 1.0, 0.367879441171442)] // e^-1
    [InlineData(1.0, 1.000000001, 0.367879440987503)]
    [InlineData(0.0, 0.0, 1.0)]
    [InlineData(0.0, 1e6, 1e-6)]
    public void Two_nodes(double first, double second, double expected) =>
        Assert.Equal(expected, CascadeResponse.Of(first, second), 1e-14);

    [Fact]
    public void Equal_rates_give_the_powers_of_time_over_their_factorials()
    {
        Assert.Equal(Math.Exp(-2) / 2, CascadeResponse.Of(2, 2, 2), 1e-15);
        Assert.Equal(Math.Exp(-2) / 6, CascadeResponse.Of(2, 2, 2, 2), 1e-15);
        Assert.Equal(Math.Exp(-2) / 24, CascadeResponse.Of([2, 2, 2, 2, 2]), 1e-15);
    }

    [Fact]
    public void Three_nodes_are_the_partial_fractions() =>
        Assert.Equal((1 / 3.0) - (Math.Exp(-1) / 2) + (Math.Exp(-3) / 6), CascadeResponse.Of(0, 1, 3), 1e-15);

    // f[a, b, …, y, z]·(y − z) = f[…, z] − f[…, y]: the definition, taken where it loses no digits.
    [Fact]
    public void It_is_the_divided_difference_of_the_exponential_whatever_the_order() =>
        Gen.Select(Gen.Double[0, 8], Gen.Double[0, 8], Gen.Double[0, 8], Gen.Double[0, 8]).Sample(
            (a, b, c, d) =>
            {
                var whole = CascadeResponse.Of(a, b, c, d);
                Assert.Equal(whole, CascadeResponse.Of(d, b, a, c), 1e-13);
                Assert.Equal(CascadeResponse.Of(a, b, c) - CascadeResponse.Of(a, b, d), whole * (d - c), 1e-13);
                Assert.True(whole >= 0);
            },
            iter: 5000);

    [Fact]
    public void The_two_ways_of_working_it_out_meet()
    {
        for (var gap = 0.49; gap < 0.51; gap += 0.001)
        {
            Assert.Equal((Math.Exp(-1) - Math.Exp(-1 - gap)) / gap, CascadeResponse.Of(1, 1 + gap), 1e-15);
        }
    }
}
