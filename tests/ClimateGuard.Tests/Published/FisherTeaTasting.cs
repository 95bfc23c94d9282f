using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// R. A. Fisher, The Design of Experiments, 1935, the tea tasting; and tables that R 4.2.2 shows with fisher.test. p as fractions or from
/// R; conditional odds ratios recomputed with whole-number hypergeometric weights and Brent's method in Python 3.11 with SciPy 1.10.1
/// (brentq, xtol 1e-15), because R's own root keeps five digits of them.
/// </summary>
public sealed class FisherTeaTasting
{
    private static readonly TwoByTwo Tea = new(3, 1, 1, 3);
    private static readonly TwoByTwo AllCorrect = new(4, 0, 0, 4);
    private static readonly TwoByTwo Twins = new(2, 15, 10, 3);
    private static readonly TwoByTwo Invented = new(20, 80, 10, 90);

    [Fact]
    public void The_lady_with_three_of_four_cups()
    {
        Within.Absolute(17.0 / 35, FisherExact.Test(Tea).PValue, 1e-13); // two-sided 0.485714285714286
        Within.Absolute(17.0 / 70, FisherExact.Test(Tea, Alternative.Greater).PValue, 1e-13); // 0.242857142857143
        Within.Absolute(9.0 / 35, FisherExact.Test(Tea).MidP, 1e-13); // (1 + 1)/70 + half of (16 + 16)/70
        Within.Absolute(9.0 / 70, FisherExact.Test(Tea, Alternative.Greater).MidP, 1e-13); // 1/70 + half of 16/70
    }

    [Fact]
    public void The_lady_with_all_cups()
    {
        Within.Absolute(1.0 / 70, FisherExact.Test(AllCorrect, Alternative.Greater).PValue, 1e-14); // from memory: 1/70
        Within.Absolute(1.0 / 35, FisherExact.Test(AllCorrect).PValue, 1e-14);
    }

    [Fact]
    public void Conviction_of_twins()
    {
        Within.Relative(0.000536724119143, FisherExact.Test(Twins).PValue, 1e-9); // R fisher.test example
        Within.Relative(0.000465180943363, FisherExact.Test(Twins, Alternative.Less).PValue, 1e-9);
        Within.Absolute(0.999984519019, FisherExact.Test(Twins, Alternative.Greater).PValue, 1e-11);
    }

    [Fact]
    public void A_table_of_two_hundred_parts() => // R 4.2.2: fisher.test(matrix(c(20,10,80,90),2))
        Within.Absolute(0.073427589721, FisherExact.Test(Invented).PValue, 1e-10);

    [Theory]
    [InlineData(3, 1, 1, 3, 6.408319658199681, 0.2117355954465787, 626.2435305888133)] // R prints 6.408309; 0.2117329 to 621.9337505
    [InlineData(2, 15, 10, 3, 0.04693663904967992, 0.0033171639506573637, 0.3631896023566803)] // R prints 0.0469366; 0.003325764; 0.3631823
    [InlineData(20, 80, 10, 90, 2.241021671469623, 0.9352824082589906, 5.699528414562706)] // R prints 2.241035; 0.9352806; 5.698796
    public void The_conditional_odds_ratio_and_its_interval(int a, int b, int c, int d, double ratio, double low, double high)
    {
        var found = FisherExact.ConditionalOddsRatio(new TwoByTwo(a, b, c, d));
        Within.Relative(ratio, found.Ratio, 1e-10);
        Within.Relative(low, found.Interval.Low, 1e-10);
        Within.Relative(high, found.Interval.High, 1e-10);
    }

    [Fact]
    public void A_one_sided_interval_has_one_end()
    {
        var found = FisherExact.ConditionalOddsRatio(Twins, Alternative.Less);
        Assert.Equal(0, found.Interval.Low);
        Within.Relative(0.2849595456196966, found.Interval.High, 1e-10); // R prints 0.2849601
    }

    [Fact]
    public void A_zero_cell_makes_the_ratio_infinite_and_keeps_the_lower_end()
    {
        var found = FisherExact.ConditionalOddsRatio(new TwoByTwo(4, 0, 3, 16));
        Assert.Equal(double.PositiveInfinity, found.Ratio);
        Assert.Equal(double.PositiveInfinity, found.Interval.High);
        Within.Relative(2.0931345626677236, found.Interval.Low, 1e-10); // R prints 2.093142
    }
}
