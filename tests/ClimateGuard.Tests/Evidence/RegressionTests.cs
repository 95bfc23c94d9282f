using ClimateGuard.Evidence;
using ClimateGuard.Tests.Published;

namespace ClimateGuard.Tests.Evidence;

/// <summary>Twelve invented parts of five episodes; expected values from R 4.2.2: lm(y ~ x), the CR1 sandwich by matrix algebra, prcomp for Deming.</summary>
public sealed class RegressionTests
{
    private static readonly double[] X = [1.0, 2.0, 3.0, 2.5, 4.0, 5.5, 0.5, 1.5, 6.0, 7.0, 3.5, 4.5];
    private static readonly double[] Y = [1.2, 2.3, 2.7, 2.2, 4.6, 5.9, 0.1, 1.1, 6.8, 7.9, 3.1, 4.0];
    private static readonly int[] Episodes = [1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 5, 5];

    [Fact]
    public void Parts_of_one_episode_count_together()
    {
        var fit = LinearRegression.Line(X, Y);
        Within.Absolute(1.157809694793537, fit.Coefficients[1], 1e-13);
        Within.Absolute(0.0620397275679482, fit.Coefficient(1).StandardError, 1e-13);
        var slope = fit.CoefficientByEpisode(1, [X], Episodes);
        Within.Absolute(0.0674248289679039, slope.StandardError, 1e-13);
        Within.Absolute(0.2434859718550514, fit.CoefficientByEpisode(0, [X], Episodes).StandardError, 1e-12);
        Assert.Equal(4, slope.DegreesOfFreedom);
        Within.Absolute(0.970608358436802, slope.Interval().Low, 1e-9);
        Within.Absolute(1.345011031150272, slope.Interval().High, 1e-9);
        Within.Relative(6.7472437390089e-05, slope.PValue(), 1e-10);
    }

    [Fact]
    public void One_episode_tells_nothing_of_others() =>
        Assert.Throws<ArgumentException>(() => LinearRegression.Line(X, Y).CoefficientByEpisode(1, [X], new int[12]));

    [Theory]
    [InlineData(1.02, 0.17, SlopeFinding.ConsistentInSize)]
    [InlineData(0.5, 0.1, SlopeFinding.RelatedButSizeWrong)]
    [InlineData(0.1, 0.2, SlopeFinding.NoRelation)]
    [InlineData(0.6, 0.4, SlopeFinding.DataTooFew)]
    public void A_slope_is_held_against_none_and_against_the_size_predicted(double slope, double error, SlopeFinding finding)
    {
        var test = SlopeTest.Of(new Estimate(slope, error, 22));
        Assert.Equal(finding, test.Finding);
        Assert.Equal(test.Interval.Contains(0), test.PValueAgainstZero > 0.05);
        Assert.Equal(test.Interval.Contains(1), test.PValueAgainstOne > 0.05);
    }

    [Fact]
    public void Error_in_the_prediction_shrinks_an_ordinary_slope() =>
        Within.Absolute(0.8, ErrorsInBoth.Attenuation(4, 1), 1e-15); // var(x)/(var(x) + u²(x))

    [Fact]
    public void Deming_with_equal_errors_is_the_first_principal_axis()
    {
        var line = ErrorsInBoth.Deming(X, Y); // R: eigen(cov(cbind(x, y)))$vectors[, 1]
        Within.Absolute(1.176983012587830, line.Slope.Value, 1e-12);
        Within.Absolute(-0.529691959675085, line.Intercept.Value, 1e-12);
        Assert.InRange(line.Slope.StandardError, 0.04, 0.09); // near the ordinary one
    }

    [Fact]
    public void Deming_undoes_the_shrinking()
    {
        // A true line of slope 1 with equal errors at fixed places: ordinary regression shrinks it, Deming does not.
        double[] truth = [.. Enumerable.Range(0, 400).Select(i => 4.0 * Math.Sin(i))];
        var noise = new ClimateGuard.Thermal.GaussianStream(7);
        double[] x = [.. truth.Select(value => value + (2 * noise.Next()))], y = [.. truth.Select(value => value + (2 * noise.Next()))];
        Assert.InRange(LinearRegression.Line(x, y).Coefficients[1], 0.57, 0.77); // λ = 8/(8 + 4)
        Assert.InRange(ErrorsInBoth.Deming(x, y).Slope.Value, 0.9, 1.1);
        var york = ErrorsInBoth.York([.. x.Select((value, i) => new UncertainPoint(value, y[i], 2, 2))]);
        Within.Absolute(ErrorsInBoth.Deming(x, y).Slope.Value, york.Slope.Value, 1e-9); // equal errors: the two are one line
        Assert.InRange(york.Scatter!.PValue, 0.001, 0.999);
    }

    [Fact]
    public void A_column_that_depends_on_another_is_named()
    {
        var message = Assert.Throws<ArgumentException>(() => LinearRegression.Fit([X, [.. X.Select(x => (2 * x) + 1)]], Y)).Message;
        Assert.Contains("combination of the others", message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_column_that_does_not_vary_is_refused() =>
        Assert.Throws<ArgumentException>(() => LinearRegression.Line([3, 3, 3, 3], [1, 2, 3, 4]));

    [Fact]
    public void Separated_data_are_an_outcome_and_not_a_number()
    {
        var split = LogisticRegression.Fit([[1, 2, 3, 4, 5, 6]], [false, false, false, true, true, true]);
        Assert.Equal(LogisticOutcome.Separated, split.Outcome);
        Assert.Contains("exact test", Assert.Throws<InvalidOperationException>(() => split.Coefficient(1)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Data_separated_but_for_a_tie_are_an_outcome_too() => Assert.Equal(
        LogisticOutcome.Separated, LogisticRegression.Fit([[1, 2, 3, 3, 4, 5]], [false, false, false, true, true, true]).Outcome);

    [Fact]
    public void A_split_by_a_zero_cell_is_separated()
    {
        // Below 65 °F four of four, above three of nineteen: the column splits one side wholly.
        double[] below = [.. Enumerable.Range(0, 23).Select(i => i < 4 ? 1.0 : 0)];
        bool[] bad = [.. Enumerable.Range(0, 23).Select(i => i < 7)];
        Assert.Equal(LogisticOutcome.Separated, LogisticRegression.Fit([below], bad).Outcome);
    }

    [Fact]
    public void All_good_parts_leave_nothing_to_explain() =>
        Assert.Equal(LogisticOutcome.OneOutcomeOnly, LogisticRegression.Fit([[1, 2, 3, 4]], [false, false, false, false]).Outcome);

    [Fact]
    public void Not_a_number_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => LinearRegression.Line([1, 2, double.NaN, 4], [1, 2, 3, 4]));
}
