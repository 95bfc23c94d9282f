using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Brownlee, Statistical Theory and Methodology, 1965: stack loss of an ammonia plant (R data set stackloss). R 4.2.2 summary(lm(stack.loss
/// ~ .)), vcov, confint.
/// </summary>
public sealed class BrownleeStackLoss
{
    private static readonly double[] Air = [80, 80, 75, 62, 62, 62, 62, 62, 58, 58, 58, 58, 58, 58, 50, 50, 50, 50, 50, 56, 70];
    private static readonly double[] Water = [27, 27, 25, 24, 22, 23, 24, 24, 23, 18, 18, 17, 18, 19, 18, 18, 19, 19, 20, 20, 20];
    private static readonly double[] Acid = [89, 88, 90, 87, 87, 87, 93, 93, 87, 80, 89, 88, 82, 93, 89, 86, 72, 79, 80, 82, 91];
    private static readonly double[] Loss = [42, 37, 37, 28, 18, 18, 19, 20, 15, 14, 14, 13, 11, 12, 8, 7, 8, 8, 9, 15, 15];

    private static RegressionFit Fit => LinearRegression.Fit([Air, Water, Acid], Loss);

    [Theory]
    [InlineData(0, -39.919674420123961, 11.895996850644270, -65.018033889469308, -14.821314950778607)]
    [InlineData(1, 0.715640200485283, 0.134858185355372, 0.431114300224186, 1.000166100746381)]
    [InlineData(2, 1.295286124388573, 0.368024265272704, 0.518822796495561, 2.071749452281585)]
    [InlineData(3, -0.152122519148653, 0.156294043248621, -0.481874126317148, 0.177629088019843)]
    public void Coefficients_with_intervals(int place, double value, double error, double low, double high)
    {
        var found = Fit.Coefficient(place);
        Within.Relative(value, found.Value, 1e-12);
        Within.Relative(error, found.StandardError, 1e-12);
        Within.Absolute(low, found.Interval().Low, 1e-9);
        Within.Absolute(high, found.Interval().High, 1e-9);
    }

    [Fact]
    public void Tests_and_covariance()
    {
        Within.Relative(5.79902472425288e-05, Fit.Coefficient(1).PValue(), 1e-9);
        Within.Relative(0.344046096696436, Fit.Coefficient(3).PValue(), 1e-11);
        Within.Relative(3.243363918185229, Fit.ResidualStandardDeviation, 1e-12);
        Within.Relative(0.913576904460682, Fit.RSquared, 1e-12);
        Within.Relative(59.902225899656621, Fit.F, 1e-11);
        Within.Relative(-0.0365106746826758, Fit.Covariance(1, 2), 1e-10);
        Within.Relative(-1.67632079729912, Fit.Covariance(0, 3), 1e-11);
    }

    [Fact]
    public void Partial_correlation_of_air_flow()
    {
        var found = Association.Partial(Loss, Air, [Water, Acid]); // cor(resid(lm(stack.loss ~ W + A)), resid(lm(Air.Flow ~ W + A)))
        Within.Absolute(0.789659327512099, found.Correlation, 1e-12);
        Assert.Equal(17, found.DegreesOfFreedom);
        Within.Relative(5.79902472425282e-05, found.PValue, 1e-9); // the same as the t test of the coefficient
    }
}
