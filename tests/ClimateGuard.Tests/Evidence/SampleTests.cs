using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Evidence;

public sealed class SampleTests
{
    [Fact]
    public void A_text_that_is_no_number_is_named_with_its_place() => Assert.Contains(
        "Value 2, '1,5'", Assert.Throws<FormatException>(() => DecimalSeries.Parse(["1.5", "1,5"])).Message, StringComparison.Ordinal);

    [Fact]
    public void A_sample_that_is_too_small_says_how_many_it_needs() => Assert.Contains(
        "needs 2 values or more; it holds 1", Assert.Throws<ArgumentException>(() => Univariate.StandardDeviation([1])).Message, StringComparison.Ordinal);

    [Fact]
    public void Values_that_do_not_vary_have_defined_results()
    {
        Assert.Equal(0, Univariate.StandardDeviation([2, 2, 2]));
        Assert.Equal(0, Univariate.LagOneAutocorrelation([2, 2, 2]));
        Assert.Equal(0, Association.Pearson([2, 2, 2], [1, 2, 3]));
        Assert.Equal(0, Association.Kendall([2, 2, 2], [1, 2, 3]));
        Assert.Equal(1, Trend.MannKendall([2, 2, 2]).PValue);
        Assert.Equal(1, MannWhitney.Test([2, 2], [2, 2]).PValue);
        Assert.Equal(1, KruskalWallis.Test([[2.0, 2.0], [2.0]]).PValue);
        Assert.Equal(1, FisherExact.Test(new TwoByTwo(0, 5, 0, 5)).PValue);
        Assert.Equal(0, AnalysisOfVariance.OneWay([[1.0, 1.0], [1.0]]).F);
        Assert.Equal(0, MantelHaenszel.Of([new TwoByTwo(0, 5, 0, 5)]).InformativeStrata);
    }

    [Fact]
    public void Nothing_seen_has_an_interval_from_zero()
    {
        Assert.Equal(0, ProportionInterval.ClopperPearson(0, 20).Low);
        Assert.Equal(0, ProportionInterval.Wilson(0, 20).Low);
        Assert.InRange(ProportionInterval.ClopperPearson(0, 20).High, 0.168, 0.169); // 1 − 0.025^(1/20) = 0.16843
    }

    [Fact]
    public void Signs_of_tiny_predictions_are_left_out()
    {
        var found = SignAgreement.Of([5, -4, 0.1, 3], [2, -1, -3, 0], smallest: 1);
        Assert.Equal((2, 2), (found.Agree, found.Used));
    }

    [Fact]
    public void Not_a_number_is_refused_everywhere()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Univariate.Mean([1, double.NaN]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantile.Of([1, 2], double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => ControlCharts.Ewma([1, 2], double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => MultipleTesting.Holm([0.1, 1.2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSize.ForRaisedRate(0.1, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => ErrorsInBoth.York([new(0, 0, 0, 1), new(1, 1, 1, 1), new(2, 2, 1, 1)]));
    }
}
