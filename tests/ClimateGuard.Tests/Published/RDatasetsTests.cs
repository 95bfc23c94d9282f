using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>Tests of R 4.2.2 (package stats) on its own data sets and help examples; the R call stands beside each value.</summary>
public sealed class RDatasetsTests
{
    private static readonly double[] OzoneMay =
        [41, 36, 12, 18, 28, 23, 19, 8, 7, 16, 11, 14, 18, 14, 34, 6, 30, 11, 1, 11, 4, 32, 23, 45, 115, 37];

    private static readonly double[] OzoneJune = [29, 71, 39, 23, 21, 37, 20, 12, 13];

    private static readonly double[] OzoneJuly =
        [135, 49, 32, 64, 40, 77, 97, 97, 85, 10, 27, 7, 48, 35, 61, 79, 63, 16, 80, 108, 20, 52, 82, 50, 64, 59];

    private static readonly double[] OzoneAugust =
        [39, 9, 16, 78, 35, 66, 122, 89, 110, 44, 28, 65, 22, 59, 23, 31, 44, 21, 9, 45, 168, 73, 76, 118, 84, 85];

    private static readonly double[] OzoneSeptember =
        [96, 78, 73, 91, 47, 32, 20, 23, 21, 24, 44, 21, 28, 9, 13, 46, 18, 13, 24, 16, 13, 23, 36, 7, 14, 30, 14, 18, 20];

    internal static readonly double[] Nile =
    [
        1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140, 1100, 1210, 1150, 1250,
        1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821,
        768, 845, 864, 862, 698, 845, 744, 796, 1040, 759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860,
        874, 848, 890, 744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
    ];

    [Fact]
    public void Mann_Whitney_of_the_help_example()
    {
        double[] x = [0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46], y = [1.15, 0.88, 0.90, 0.74, 1.21];
        var greater = MannWhitney.Test(x, y, Alternative.Greater);
        Assert.Equal(35, greater.Statistic);
        Assert.True(greater.Exact);
        Within.Absolute(0.127206127206127, greater.PValue, 1e-13); // wilcox.test(x, y, alternative = "g")
        Within.Absolute(0.254412254412254, MannWhitney.Test(x, y).PValue, 1e-13);
        Within.Absolute(0.110335680960, MannWhitney.Test(x, y, Alternative.Greater, exact: false, continuity: false).PValue, 1e-10);
        Within.Absolute(0.244623605127, MannWhitney.Test(x, y, exact: false).PValue, 1e-10);
    }

    [Fact]
    public void Wilcoxon_signed_rank_of_the_depression_example()
    {
        double[] x = [1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30], y = [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29];
        var found = SignedRank.Test([.. x.Zip(y, (a, b) => a - b)], Alternative.Greater);
        Assert.Equal(40, found.Statistic);
        Within.Absolute(0.01953125, found.PValue, 1e-14); // wilcox.test(x, y, paired = TRUE, alternative = "greater")
    }

    [Fact]
    public void Signed_rank_with_ties_is_normal()
    {
        var found = SignedRank.Test([1.1, 2.2, 2.2, -0.5, 3.1, 0.5, 1.1, -2.2, 4]);
        Assert.Equal(37.5, found.Statistic); // wilcox.test(x, exact = FALSE)
        Within.Absolute(0.0841811574211763, found.PValue, 1e-12);
    }

    [Fact]
    public void Mann_Whitney_with_ties_on_ozone()
    {
        var found = MannWhitney.Test(OzoneMay, OzoneAugust);
        Assert.Equal(127.5, found.Statistic); // wilcox.test(Ozone ~ Month, airquality, subset = Month %in% c(5, 8))
        Assert.False(found.Exact);
        Within.Relative(0.000120807830769, found.PValue, 1e-9);
    }

    [Fact]
    public void Kruskal_Wallis_on_ozone()
    {
        var found = KruskalWallis.Test([OzoneMay, OzoneJune, OzoneJuly, OzoneAugust, OzoneSeptember]);
        Within.Relative(29.2665763061, found.Statistic, 1e-10); // kruskal.test(Ozone ~ Month, airquality)
        Within.Relative(6.9007141185e-6, found.PValue, 1e-9);
    }

    [Fact]
    public void Welch_on_sleep()
    {
        var found = WelchTest.Test([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0], [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]);
        Within.Absolute(-1.860813467487, found.T, 1e-11); // t.test(extra ~ group, sleep)
        Within.Absolute(17.776473516178, found.DegreesOfFreedom, 1e-10);
        Within.Absolute(0.079394140187358, found.PValue, 1e-12);
    }

    [Fact]
    public void Correlations_of_cars()
    {
        Within.Absolute(0.806894900689, Association.Pearson(Cars.Speed, Cars.Distance), 1e-11); // cor(cars, method = …)
        Within.Absolute(0.830356838833, Association.Spearman(Cars.Speed, Cars.Distance), 1e-11);
        Within.Absolute(0.668990149986, Association.Kendall(Cars.Speed, Cars.Distance), 1e-11);
    }

    [Fact]
    public void Regression_of_cars()
    {
        var fit = LinearRegression.Line(Cars.Speed, Cars.Distance); // confint(lm(dist ~ speed, cars))
        Within.Absolute(-17.579094890511, fit.Coefficients[0], 1e-10);
        Within.Absolute(6.758440169379, fit.Coefficient(0).StandardError, 1e-10);
        Within.Absolute(-31.167849602, fit.Coefficient(0).Interval().Low, 1e-8);
        Within.Absolute(-3.990340179, fit.Coefficient(0).Interval().High, 1e-8);
        Within.Absolute(3.932408759124, fit.Coefficients[1], 1e-11);
        Within.Absolute(0.415512776657, fit.Coefficient(1).StandardError, 1e-11);
        Within.Absolute(3.096964328, fit.Coefficient(1).Interval().Low, 1e-8);
        Within.Absolute(4.767853190, fit.Coefficient(1).Interval().High, 1e-8);
        Within.Relative(1.48983649629509e-12, fit.FPValue, 1e-9); // cor.test(cars$speed, cars$dist)$p.value
    }

    [Fact]
    public void Trend_of_the_Nile()
    {
        double[] years = [.. Enumerable.Range(1871, 100).Select(year => (double)year)];
        Within.Absolute(-2.6, Trend.TheilSenSlope(years, Nile), 1e-12);
        var found = Trend.MannKendall(Nile);
        Assert.Equal(-1387, found.Score);
        Within.Absolute(112728.333333, found.Variance, 1e-5);
        Within.Absolute(-4.128066523, found.Z, 1e-8);
        Within.Relative(3.658262922e-5, found.PValue, 1e-8);
    }

    [Theory]
    [InlineData(1, 10)]
    [InlineData(2, 10)]
    [InlineData(3, 4)]
    [InlineData(4, 7)]
    [InlineData(5, 10)]
    [InlineData(6, 10)]
    [InlineData(7, 7.6)]
    [InlineData(8, 10)]
    [InlineData(9, 10)]
    public void Nine_types_of_quantile(int type, double expected) => // quantile(c(1,2,3,4,10), 0.9, type = …)
        Within.Absolute(expected, Quantile.Of([1, 2, 3, 4, 10], 0.9, (QuantileType)type), 1e-12);

    [Fact]
    public void Median_absolute_deviation()
    {
        Within.Absolute(1, Univariate.MedianAbsoluteDeviation([1, 2, 3, 4, 10]), 1e-15); // mad(x, constant = 1)
        Within.Absolute(1.4826, Univariate.MedianAbsoluteDeviation([1, 2, 3, 4, 10], scaled: true), 5e-5); // mad(x)
    }

    [Fact]
    public void Proportions()
    {
        Within.Absolute(0.043475764932, ProportionInterval.Wilson(5, 50).Low, 1e-11); // prop.test(5, 50, correct = FALSE)
        Within.Absolute(0.213602314375, ProportionInterval.Wilson(5, 50).High, 1e-11);
        Within.Absolute(0.033275093589, ProportionInterval.ClopperPearson(5, 50).Low, 1e-11); // binom.test(5, 50)
        Within.Absolute(0.218135366434, ProportionInterval.ClopperPearson(5, 50).High, 1e-11);
    }

    [Fact]
    public void Fourteen_of_fifteen_signs()
    {
        var found = SignAgreement.OfCounts(14, 15);
        Within.Absolute(0.00048828125, found.PValue, 1e-15); // binom.test(14, 15, alternative = "greater")
        Within.Absolute(0.680515433421697, found.Share.Low, 1e-12); // binom.test(14, 15)$conf.int
        Within.Absolute(0.998313569758647, found.Share.High, 1e-12);
    }
}
