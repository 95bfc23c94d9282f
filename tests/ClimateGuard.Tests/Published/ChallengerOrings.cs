using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Dalal, Fowlkes and Hoadley, Journal of the American Statistical Association 84 (1989) 945: 23 launches, °F at launch and O-rings in
/// distress (R package vcd, data set SpaceShuttle). Values from R 4.2.2 glm(binomial), epsilon 1e-14; textbooks print 15.0429 and −0.2322
/// (from memory).
/// </summary>
public sealed class ChallengerOrings
{
    private static readonly double[] Fahrenheit =
        [66, 70, 69, 68, 67, 72, 73, 70, 57, 63, 70, 78, 67, 53, 67, 75, 70, 81, 76, 79, 75, 58, 76];

    private static readonly bool[] Distress =
    [
        false, true, false, false, false, false, false, false, true, true, true, false, false, true, false, false, false, false, false,
        false, true, true, false,
    ];

    private static readonly int[] Failures = [0, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1, 0, 0, 2, 0, 0, 0, 0, 0, 0, 2, 1, 0];

    private static LogisticFit Fit => LogisticRegression.Fit([Fahrenheit], Distress);

    [Fact]
    public void Coefficients_and_standard_errors()
    {
        Within.Absolute(15.042901647702, Fit.Coefficient(0).Value, 1e-9);
        Within.Absolute(7.378636385, Fit.Coefficient(0).StandardError, 1e-7);
        Within.Absolute(-0.232162744219, Fit.Coefficient(1).Value, 1e-11);
        Within.Absolute(0.108236522, Fit.Coefficient(1).StandardError, 1e-8);
        Within.Absolute(-2.14496, Fit.Coefficient(1).T(), 1e-5);
        Within.Absolute(0.031956, Fit.Coefficient(1).PValue(), 1e-6);
    }

    [Fact]
    public void Covariance_of_the_coefficients()
    {
        Within.Absolute(54.4442749007, Fit.Covariance(0, 0), 1e-6);
        Within.Absolute(-0.7963868253, Fit.Covariance(0, 1), 1e-8);
        Within.Absolute(0.0117151446, Fit.Covariance(1, 1), 1e-9);
    }

    [Fact]
    public void Deviances_and_likelihood()
    {
        Within.Absolute(28.267152734294, Fit.NullDeviance, 1e-10);
        Within.Absolute(20.315192687867, Fit.Deviance, 1e-10);
        Within.Absolute(7.951960046, Fit.LikelihoodRatio.Statistic, 1e-8);
        Within.Absolute(0.0048035, Fit.LikelihoodRatio.PValue, 1e-7);
        Within.Absolute(-10.157596343933, Fit.LogLikelihood, 1e-10);
        Within.Absolute(24.31519269, Fit.Akaike, 1e-8);
    }

    [Theory]
    [InlineData(31, 0.999608782885)]
    [InlineData(53, 0.939247808988)]
    [InlineData(60, 0.752713481525)]
    [InlineData(65, 0.488083075622)]
    [InlineData(70, 0.229968257836)]
    [InlineData(75, 0.085543555739)]
    [InlineData(81, 0.022703285984)]
    public void Probability_of_distress(double fahrenheit, double expected) => Within.Absolute(expected, Fit.Probability(fahrenheit), 1e-11);

    [Fact]
    public void Six_rings_a_launch()
    {
        var fit = LogisticRegression.Fit([Fahrenheit], Failures, [.. Enumerable.Repeat(6, 23)]);
        Within.Absolute(5.084977233038, fit.Coefficient(0).Value, 1e-9);
        Within.Absolute(-0.115601166672, fit.Coefficient(1).Value, 1e-11);
        Within.Absolute(18.0863267425, fit.Deviance, 1e-9);
    }

    [Fact]
    public void Ranks_of_temperature_by_distress()
    {
        double[] without = [.. Fahrenheit.Where((_, i) => !Distress[i])], with = [.. Fahrenheit.Where((_, i) => Distress[i])];
        Assert.Equal(87.5, MannWhitney.Test(without, with).Statistic);
        Within.Absolute(0.037570468, MannWhitney.Test(without, with).PValue, 1e-9);
        Within.Absolute(0.034596417, MannWhitney.Test(without, with, continuity: false).PValue, 1e-9);
    }

    [Fact]
    public void Below_65_degrees_every_launch_had_distress()
    {
        var table = TwoByTwo.Of([.. Fahrenheit.Select(f => f < 65)], Distress);
        Assert.Equal(new TwoByTwo(4, 0, 3, 16), table);
        Within.Absolute(35.0 / 8855, FisherExact.Test(table).PValue, 1e-12); // 0.003952569170
        Assert.Equal(double.PositiveInfinity, FisherExact.ConditionalOddsRatio(table).Ratio);
    }
}
