using ClimateGuard.Enclosure;

namespace ClimateGuard.Tests.Published;

/// <summary>NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, the cumulative sum example, by the onset finder.</summary>
public sealed class NistHandbookCusumOnset
{
    private static readonly double[] Values =
    [
        324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325, 327.25, 327.825,
        328.5, 326.675, 327.775, 326.875, 328.35,
    ];

    [Fact]
    public void The_sums_are_those_of_the_table()
    {
        var sums = Cusum.Sums(Values, target: 325, allowance: 0.3175);

        Within.Absolute(0.0325, sums[4].High, 1e-9);
        Within.Absolute(0.7150, sums[7].Low, 1e-9);
        Within.Absolute(3.0075, sums[12].High, 1e-9);
        Within.Absolute(19.0350, sums[19].High, 1e-9);
    }

    [Fact]
    public void The_change_began_with_the_thirteenth_value() => Assert.Equal(12, Cusum.Onset(Values, 325, 0.635));
}
