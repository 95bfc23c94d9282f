using ClimateGuard.Enclosure;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>Intervals from the errors of the past, and whether they hold what they say.</summary>
public sealed class ForecastIntervalTests
{
    private const int StepsPerDay = 288;

    [Fact]
    public void The_ends_are_the_errors_of_the_ranks_that_conformal_prediction_takes()
    {
        // 199 errors, −99 to 99 in any order: the rank (199 + 1)·0.95 = 190 from below is 90, from above −90
        var cell = new ForecastCell(new double[ForecastCell.Capacity]);
        foreach (var error in Enumerable.Range(-99, 199).OrderBy(e => e * 7919 % 199)) Add(cell, error, cell.Count * 5);
        cell.Choose();

        Assert.False(cell.Few);
        Assert.Equal((-90.0, 90.0, 199), (cell.Low, cell.High, cell.Residuals));
    }

    [Fact]
    public void Fewer_than_fifty_errors_or_fewer_than_three_days_of_them_make_it_wider_by_a_fifth()
    {
        ForecastCell few = new(new double[ForecastCell.Capacity]), fewDays = new(new double[ForecastCell.Capacity]);
        for (var k = 0; k < 49; k++) Add(few, k - 24, k * StepsPerDay);
        for (var k = 0; k < 200; k++) Add(fewDays, k - 99.5f, k);
        few.Choose();
        fewDays.Choose();

        Assert.True(few.Few && fewDays.Few);

        // rank ⌈50·0.95⌉ = 48 of −24 to 24 is 23; rank ⌈201·0.95⌉ = 191 of −99.5 to 99.5 is 90.5
        Assert.Equal((-27.6, 27.6), (Math.Round(few.Low, 9), Math.Round(few.High, 9)));
        Assert.Equal(1.2 * 90.5, fewDays.High, 1e-9);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.9)]
    [InlineData(0.98)]
    public void Nine_in_ten_fall_into_their_interval(double keep)
    {
        var random = new Random(17);
        var forecaster = CourseOf.Forecaster();
        var departure = 0.0;
        for (var step = 0; step < 28 * StepsPerDay; step++)
        {
            departure = (keep * departure) + (Math.Sqrt(1 - (keep * keep)) * 0.2 * Normal(random));
            for (var minute = 0; minute < 5; minute++) forecaster.Take(CourseOf.Minute((step * 5) + minute, 20 + departure));
        }

        Assert.Equal(9, forecaster.Scores().Count);
        Assert.All(forecaster.Scores(), score => Assert.InRange(score.Coverage, 0.86, 0.94));
        Assert.All(forecaster.Scores(), score => Assert.True(score.Skill > -0.02, score.ToString()));

        // What can be foretold of such air is known: φ^h of the departure is left, σ·√(1 − φ^2h) around it, whose mean absolute value is √(2/π) of it.
        var far = forecaster.Scores().Single(s => s.Ahead == TimeSpan.FromHours(4));
        Assert.Equal(0.2 * Math.Sqrt(1 - Math.Pow(keep, 96)) * Math.Sqrt(2 / Math.PI), far.MaeKelvins, 0.015);
    }

    private static void Add(ForecastCell cell, float error, long step) => cell.Add([error, float.NaN, float.NaN, float.NaN, float.NaN], step);

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
