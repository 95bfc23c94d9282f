using ClimateGuard.Tests.Published;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal;

public sealed class UncertaintyBudgetTests
{
    [Fact]
    public void A_label_used_twice_is_refused_by_name()
    {
        var fault = Assert.Throws<ArgumentException>(() => new UncertaintyBudget(0, [new("air", 20, 0.1, 1), new("air", 20, 0.2, 1)]));
        Assert.Contains("'air'", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_pair_that_is_not_in_the_budget_is_refused_with_what_is()
    {
        var fault = Assert.Throws<ArgumentException>(() => new UncertaintyBudget(0, [new("air", 20, 0.1, 1)], [new("air", "scale", 0.5)]));
        Assert.Contains("'scale'", fault.Message, StringComparison.Ordinal);
        Assert.Contains("it has air", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Correlations_that_contradict_each_other_are_refused() => Assert.Throws<ArgumentException>(() => new UncertaintyBudget(
        0,
        [new("a", 0, 1, 1), new("b", 0, 1, 1), new("c", 0, 1, 1)],
        [new("a", "b", -1), new("b", "c", -1), new("a", "c", -1)]));

    [Theory]
    [InlineData(-0.1, 1, 5)]
    [InlineData(double.NaN, 1, 5)]
    [InlineData(0.1, double.NaN, 5)]
    [InlineData(0.1, 1, 0.5)]
    public void A_line_that_is_no_number_is_refused(double u, double sensitivity, double degrees)
    {
        var fault = Assert.Throws<ArgumentOutOfRangeException>(() => new UncertaintyBudget(0, [new("air", 20, u, sensitivity, degrees)]));
        Assert.Contains("air", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_budget_without_uncertainty_is_exact_and_expands_to_zero()
    {
        var exact = new UncertaintyBudget(5, [new("none", 5, 0, 1, 3)]);
        Assert.Equal(0, exact.CombinedStandardUncertainty);
        Assert.Equal(double.PositiveInfinity, exact.EffectiveDegreesOfFreedom);
        Assert.Equal(0, exact.ExpandedUncertainty(0.95));
        Assert.Equal(0, new UncertaintyBudget(5, []).CombinedStandardUncertainty);
    }

    [Fact]
    public void First_order_hides_the_coefficient_where_the_difference_is_zero()
    {
        // 1 m, expected difference 0 K known to 0.5 K, coefficient known to 0.6 µm/(m K): the product adds 0.3 µm, first order 0.
        var budget = new UncertaintyBudget(0, [new("coefficient", 11.5, 0.6, 0), new("difference", 0, 0.5, 0)], products: [new("coefficient", "difference", 1)]);
        Assert.Equal(0, budget.CombinedStandardUncertainty);
        Within.Absolute(0.3, budget.SecondOrderStandardUncertainty, 1e-15);
        var drawn = MonteCarlo.Propagate(
            [InputDistribution.Gaussian(11.5, 0.6), InputDistribution.Gaussian(0, 0.5)], x => (x[0] - 11.5) * x[1], 200_000, 4);
        Within.Relative(0.3, drawn.StandardDeviation, 0.01);
    }

    [Fact]
    public void A_model_that_gives_no_number_is_named_with_its_trial()
    {
        var fault = Assert.Throws<ArgumentException>(() => MonteCarlo.Propagate([InputDistribution.Gaussian(0, 1)], x => x[0] / 0 * 0, 100, 1));
        Assert.Contains("trial 0", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_input_leaves_the_draws_of_the_others_unchanged()
    {
        var one = MonteCarlo.Propagate([InputDistribution.Rectangular(0, 1)], x => x[0], 1000, 8);
        var two = MonteCarlo.Propagate([InputDistribution.Rectangular(0, 1), InputDistribution.StudentT(0, 1, 4)], x => x[0], 1000, 8);
        Assert.Equal(one.Mean, two.Mean);
        Assert.Equal(one.Symmetric(0.9), two.Symmetric(0.9));
    }

    [Fact]
    public void The_share_above_a_value_counts_the_trials()
    {
        var drawn = MonteCarlo.Propagate([InputDistribution.Gaussian(0, 1)], x => x[0], 100_000, 5);
        Within.Absolute(0.025, drawn.ShareAbove(1.959963985), 0.002);
        Assert.Equal(1, drawn.ShareAbove(-9));
        Assert.Equal(0, drawn.ShareAbove(9));
    }
}
