using ClimateGuard.Evidence;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Pearson's data with York's weights: York, Canadian Journal of Physics 44 (1966) 1079; York and others, American Journal of Physics 72
/// (2004) 367, table III (from memory: slope −0.4805 ± 0.0580, intercept 5.4799 ± 0.2950). All digits recomputed with SciPy 1.10.1:
/// odr.ODR(RealData(x, y, 1/sqrt(wx), 1/sqrt(wy)), …) and the equations of the paper iterated 200 times in numpy.
/// </summary>
public sealed class YorkPearsonLine
{
    private static readonly double[] X = [0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
    private static readonly double[] Y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
    private static readonly double[] WeightX = [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1.0];
    private static readonly double[] WeightY = [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500];

    [Fact]
    public void Slope_intercept_and_their_standard_errors()
    {
        var line = ErrorsInBoth.York([.. X.Select((x, i) => new UncertainPoint(x, Y[i], 1 / Math.Sqrt(WeightX[i]), 1 / Math.Sqrt(WeightY[i])))]);
        Within.Absolute(-0.4805334074462021, line.Slope.Value, 1e-12);
        Within.Absolute(5.479910224032864, line.Intercept.Value, 1e-11);
        Within.Absolute(0.05798500900077448, line.Slope.StandardError, 1e-12);
        Within.Absolute(0.29497073549310865, line.Intercept.StandardError, 1e-11);
        Within.Absolute(11.866353194061462, line.Scatter!.Statistic, 1e-10); // the paper: S/(n − 2) = 1.483
        Assert.Equal(8, line.Scatter.DegreesOfFreedom);
    }
}
