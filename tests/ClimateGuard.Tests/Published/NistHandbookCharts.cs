using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>NIST/SEMATECH e-Handbook of Statistical Methods, control chart examples; printed values and a fresh computation of them.</summary>
public sealed class NistHandbookCharts
{
    private static readonly double[] Individuals = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

    private static readonly double[] EwmaData =
        [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

    private static readonly double[] EwmaPrinted =
    [
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94,
        51.99,
    ];

    private static readonly double[] CusumData =
    [
        324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325, 327.25, 327.825,
        328.5, 326.675, 327.775, 326.875, 328.35,
    ];

    private static readonly double[] CusumHighFrom13 = [3.0075, 4.9400, 7.4475, 10.63, 11.9875, 14.445, 16.0025, 19.035];

    [Fact]
    public void Individuals_6_3_2_2()
    {
        var chart = ControlCharts.Individuals(Individuals, 1.128, 3.267); // the rounded constants of the handbook
        Within.Absolute(50.81, chart.Mean, 1e-12);
        Within.Absolute(1.8778, chart.MeanMovingRange, 5e-5);
        Within.Absolute(55.8041, chart.Limits.High, 1e-4);
        Within.Absolute(45.8159, chart.Limits.Low, 1e-4);
        Within.Absolute(55.804089835, chart.Limits.High, 1e-9); // recomputed
        Within.Absolute(6.1347, chart.UpperRangeLimit, 1e-4); // 3.267·1.877778, recomputed
        Assert.Empty(chart.Beyond);
    }

    [Fact]
    public void Exponentially_weighted_average_6_3_2_4()
    {
        var chart = ControlCharts.Ewma(EwmaData, target: 50, standardDeviation: 2.0539, weight: 0.3, width: 3);
        Within.Absolute(52.5884, chart.Limits[0].High, 1e-4); // printed, truncated
        Within.Absolute(47.4115, chart.Limits[0].Low, 1e-4);
        Within.Absolute(52.588431738, chart.Limits[^1].High, 1e-9); // recomputed
        for (var i = 0; i < EwmaPrinted.Length; i++) Within.Absolute(EwmaPrinted[i], chart.Averages[i], 0.005);
        Within.Absolute(51.988243, chart.Averages[^1], 1e-6);
        Assert.Empty(chart.Beyond);
    }

    [Theory]
    [InlineData(0, 51.84851)]
    [InlineData(1, 52.256394)]
    [InlineData(2, 52.431406)]
    [InlineData(3, 52.512715)]
    [InlineData(4, 52.551611)]
    public void Start_up_limits_widen(int place, double upper) => // recomputed from the formula of 6.3.2.4
        Within.Absolute(upper, ControlCharts.Ewma(EwmaData, 50, 2.0539, startUp: true).Limits[place].High, 1e-5);

    [Fact]
    public void Cumulative_sum_6_3_2_3()
    {
        var chart = ControlCharts.Cusum(CusumData, target: 325, allowance: 0.3175, decision: 4.1959); // from memory, recomputed
        Assert.Equal(14, chart.Signals[0] + 1);
        for (var i = 0; i < CusumHighFrom13.Length; i++) Within.Absolute(CusumHighFrom13[i], chart.High[12 + i], 1e-9);
        Within.Absolute(0.715, chart.Low.Max(), 1e-9);
        Assert.Equal(8, chart.Low.ToList().IndexOf(chart.Low.Max()) + 1);
    }

    [Theory]
    [InlineData(2, 1.128379)]
    [InlineData(3, 1.692569)]
    [InlineData(5, 2.325929)]
    [InlineData(10, 3.077505)]
    public void Mean_range_d2(int count, double expected) => Within.Absolute(expected, ControlChartConstants.MeanRange(count), 1e-6); // R ptukey

    [Theory]
    [InlineData(2, 0.797885)]
    [InlineData(3, 0.886227)]
    [InlineData(4, 0.921318)]
    [InlineData(5, 0.939986)]
    [InlineData(10, 0.972659)]
    [InlineData(25, 0.989640)]
    public void Mean_deviation_c4(int count, double expected) => Within.Absolute(expected, ControlChartConstants.MeanDeviation(count), 1e-6); // R gamma

    [Fact]
    public void Constants_of_two()
    {
        Within.Absolute(2.658681, 3 / ControlChartConstants.MeanRangeOfTwo, 1e-6); // 3/d2(2)
        Within.Absolute(3.266532, ControlChartConstants.UpperRangeFactorOfTwo, 1e-6); // D4(2)
    }
}
