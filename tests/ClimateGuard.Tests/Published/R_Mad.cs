using ClimateGuard.Evidence;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Published;

/// <summary>R documentation of <c>mad</c>, package stats 3.4.3 (rdocumentation.org): examples and constant 1.4826 = 1/qnorm(3/4).</summary>
public sealed class R_Mad
{
    [Fact]
    public void The_examples_of_the_documentation()
    {
        Assert.Equal(2 * 1.4826, HampelFilter.Centre([1, 2, 3, 4, 5, 6, 7, 8, 9]).StandardDeviation, 1e-4);
        Assert.Equal(2 * 1.4826, HampelFilter.Centre([1, 2, 3, 4, 5, 6, 7, 8, 100]).StandardDeviation, 1e-4);
        Assert.Equal(5, HampelFilter.Centre([1, 2, 3, 4, 5, 6, 7, 8, 100]).Median);
    }

    // SciPy 1.6.0 documentation of median_abs_deviation: scale="normal" divides by about 0.67449.
    [Fact]
    public void The_constant_makes_a_normal_sample_come_out_at_its_standard_deviation() =>
        Assert.Equal(1 / 0.67449, Univariate.NormalConsistency, 1e-5);

    [Fact]
    public void An_even_window_has_the_mean_of_its_middle_values_as_median() =>
        Assert.Equal(4, HampelFilter.Median([8, 1, 2, 3, 5, 7]));
}
