using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Davies and Goldsmith, Statistical Methods in Research and Production, 1972: yield of dyestuff from six batches (data from memory; the
/// printed mean squares agree). R 4.2.2 anova(lm(y ~ batch)).
/// </summary>
public sealed class DaviesDyestuff
{
    [Fact]
    public void Variance_between_and_within_batches()
    {
        var table = AnalysisOfVariance.OneWay(
        [
            [1545, 1440, 1440, 1520, 1580], [1540, 1555, 1490, 1560, 1495], [1595, 1550, 1605, 1510, 1560],
            [1445, 1440, 1595, 1465, 1545], [1595, 1630, 1515, 1635, 1625], [1520, 1455, 1450, 1480, 1445],
        ]);
        Within.Absolute(56357.5, table.BetweenSumOfSquares, 1e-8);
        Within.Absolute(11271.5, table.BetweenMeanSquare, 1e-9);
        Within.Absolute(2451.25, table.WithinMeanSquare, 1e-9);
        Within.Absolute(4.59827, table.F, 5e-6);
        Within.Absolute(0.0043975, table.PValue, 5e-8);
        Within.Absolute(1764.05, table.BetweenVariance, 1e-9); // (11271.5 − 2451.25)/5
        Within.Absolute(1764.05 / 4215.3, table.IntraclassCorrelation, 1e-12);
        Assert.Equal(5, table.TypicalGroupSize);
    }
}
