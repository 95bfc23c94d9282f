using ClimateGuard.Enclosure;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Published;

/// <summary>
/// Rolling-origin errors of forecasts on data sets of R 4.2.2 (datasets: lh, LakeHuron, Nile), worked out with R; origins from n0 to the last
/// but h, each fit on what came before. HoltWinters(Nile, 0.3, 0.1, gamma = FALSE) for level and trend.
/// </summary>
public sealed class R_RollingOrigin
{
    private static readonly double[] Lh =
    [
        2.4, 2.4, 2.4, 2.2, 2.1, 1.5, 2.3, 2.3, 2.5, 2, 1.9, 1.7, 2.2, 1.8, 3.2, 3.2, 2.7, 2.2, 2.2, 1.9, 1.9, 1.8, 2.7, 3, 2.3, 2, 2, 2.9, 2.9,
        2.7, 2.7, 2.3, 2.6, 2.4, 1.8, 1.7, 1.5, 1.4, 2.1, 3.3, 3.5, 3.5, 3.1, 2.6, 2.1, 3.4, 3, 2.9,
    ];

    private static readonly double[] LakeHuron =
    [
        580.38, 581.86, 580.97, 580.8, 579.79, 580.39, 580.42, 580.82, 581.4, 581.32, 581.44, 581.68, 581.17, 580.53, 580.01, 579.91, 579.14,
        579.16, 579.55, 579.67, 578.44, 578.24, 579.1, 579.09, 579.35, 578.82, 579.32, 579.01, 579, 579.8, 579.83, 579.72, 579.89, 580.01, 579.37,
        578.69, 578.19, 578.67, 579.55, 578.92, 578.09, 579.37, 580.13, 580.14, 579.51, 579.24, 578.66, 578.86, 578.05, 577.79, 576.75, 576.75,
        577.82, 578.64, 580.58, 579.48, 577.38, 576.9, 576.94, 576.24, 576.84, 576.85, 576.9, 577.79, 578.18, 577.51, 577.23, 578.42, 579.61,
        579.05, 579.26, 579.22, 579.38, 579.1, 577.95, 578.12, 579.75, 580.85, 580.41, 579.96, 579.61, 578.76, 578.18, 577.21, 577.13, 579.1,
        578.25, 577.91, 576.89, 575.96, 576.8, 577.68, 578.38, 578.52, 579.74, 579.31, 579.89, 579.96,
    ];

    [Fact]
    public void Reversion_to_the_mean()
    {
        Errors(Lh, 24, (x, h) => Ar1.Fit(x).After(x[^1], h), 0.408_460_427, 0.508_218_303, 0.110_514_870);
        Errors(LakeHuron, 49, (x, h) => Ar1.Fit(x).After(x[^1], h), 0.691_225_196, 0.851_379_564, -0.141_193_073);
        Errors(RDatasetsTests.Nile, 50, (x, h) => Ar1.Fit(x).After(x[^1], h), 102.588_398_20, 122.308_302_91, -43.264_467_13);
    }

    [Fact]
    public void Level_and_trend() => Errors(RDatasetsTests.Nile, 50, (x, h) => Holt.Over(x, 0.3, 0.1, keep: 1).After(h), 91.756_102_871, 117.466_807_220, -5.930_587_811);

    [Fact]
    public void Level_and_trend_at_the_end()
    {
        var end = Holt.Over(RDatasetsTests.Nile, 0.3, 0.1, keep: 1);
        Within.Relative(784.088_298_514, end.Level, 1e-9);
        Within.Relative(-11.205_201_381, end.Trend, 1e-9);
        Within.Relative(750.472_694, end.After(3), 1e-9);
    }

    [Fact]
    public void Autocorrelation_of_lag_one() => Within.Absolute(0.575_524_475_524, Ar1.Fit(Lh).Keep, 1e-11); // acf(lh)

    [Fact]
    public void The_account_of_the_forecaster_has_the_errors_of_persistence()
    {
        // naive, h = 1: each value of the series lasts as long as the shortest horizon, 10 min
        var forecaster = CourseOf.Forecaster();
        foreach (var moment in CourseOf.Values(LakeHuron.Select(x => x - 560), minutesEach: 10)) forecaster.Take(moment);
        var score = Assert.Single(forecaster.Scores(), s => s.Ahead == TimeSpan.FromMinutes(10));

        // mean(abs(diff(LakeHuron))) over all 97 differences; the step in progress at the end is not whole
        var expected = LakeHuron.Zip(LakeHuron.Skip(1), (a, b) => Math.Abs(b - a)).Take((int)score.Told).Average();
        Assert.InRange(score.Told, 96, 97);
        Within.Absolute(expected, score.PersistenceMaeKelvins, 1e-5);
    }

    private delegate double Forecast(ReadOnlySpan<double> past, int steps);

    private static void Errors(double[] series, int first, Forecast forecast, double mae, double rmse, double mean)
    {
        double absolute = 0, squares = 0, sum = 0;
        var count = series.Length - first;
        for (var origin = first; origin < series.Length; origin++)
        {
            var error = series[origin] - forecast(series.AsSpan(0, origin), 1);
            absolute += Math.Abs(error) / count;
            squares += error * error / count;
            sum += error / count;
        }

        Within.Relative(mae, absolute, 1e-8, "mean absolute error");
        Within.Relative(rmse, Math.Sqrt(squares), 1e-8, "root mean square error");
        Within.Relative(mean, sum, 1e-7, "mean error");
    }
}
