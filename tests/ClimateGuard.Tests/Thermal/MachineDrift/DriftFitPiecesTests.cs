using ClimateGuard.Plant;
using ClimateGuard.Thermal;

namespace ClimateGuard.Tests.Thermal.MachineDrift;

public sealed class DriftFitPiecesTests
{
    [Fact]
    public void A_step_of_the_kept_input_follows_the_exponential()
    {
        // 1 − e^(−1) and 1 − e^(−2) of 3 K.
        Assert.Equal(1.896361676, Kept(TimeSpan.FromHours(4)), 1e-9);
        Assert.Equal(2.593994150, Kept(TimeSpan.FromHours(8)), 1e-9);

        static double Kept(TimeSpan step) => ExactFilter.Step(
            new Kelvins(0), new Kelvins(3), new Kelvins(9), step, TimeSpan.FromHours(4), InputHold.PiecewiseConstant).Value;
    }

    [Fact]
    public void A_ramp_is_followed_one_time_constant_behind()
    {
        // u = t from rest, τ = 1 h: θ = t − 1 + e^(−t); at 2 h 1.135335283.
        var theta = ExactFilter.Step(
            new Kelvins(0), new Kelvins(0), new Kelvins(2), TimeSpan.FromHours(2), TimeSpan.FromHours(1), InputHold.PiecewiseLinear);
        Assert.Equal(1.135335283, theta.Value, 1e-9);
    }

    [Theory]
    [InlineData(InputHold.PiecewiseLinear)]
    [InlineData(InputHold.PiecewiseConstant)]
    public void A_long_step_equals_a_thousand_short_ones(InputHold hold)
    {
        var tau = TimeSpan.FromHours(1.2);
        var end = new Kelvins(hold == InputHold.PiecewiseLinear ? 2.5 : 1.0);
        var once = ExactFilter.Step(new Kelvins(-0.4), new Kelvins(1.0), end, TimeSpan.FromHours(5), tau, hold);
        var state = new Kelvins(-0.4);
        for (var i = 0; i < 1000; i++)
        {
            Kelvins At(int k) => new(1.0 + ((end.Value - 1.0) * k / 1000.0));
            state = ExactFilter.Step(state, At(i), At(i + 1), TimeSpan.FromHours(0.005), tau, hold);
        }

        Assert.Equal(once.Value, state.Value, 1e-10);
    }

    [Fact]
    public void A_filter_agrees_with_a_runge_kutta_integration_of_a_swing()
    {
        var theta = new Kelvins(0.7);
        for (var minute = 0; minute < 600; minute++)
        {
            Kelvins At(int m) => new(DriftFitSynthetic.DaySwing(m / 60.0) - 20.0);
            theta = ExactFilter.Step(
                theta, At(minute), At(minute + 1), TimeSpan.FromMinutes(1), TimeSpan.FromHours(1.2), InputHold.PiecewiseLinear);
        }

        Assert.Equal(DriftFitSynthetic.Integrated(0.7, 0.0, 10.0, DriftFitSynthetic.DaySwing, 1.2), theta.Value, 1e-5);
    }

    [Fact]
    public void A_filter_refuses_a_step_of_no_length() => Assert.Throws<ArgumentOutOfRangeException>(() =>
        ExactFilter.Step(new Kelvins(0), new Kelvins(1), new Kelvins(1), TimeSpan.Zero, TimeSpan.FromHours(1), InputHold.PiecewiseLinear));

    [Fact]
    public void A_filter_refuses_a_state_that_is_not_a_number() => Assert.Throws<ArgumentOutOfRangeException>(() => ExactFilter.Step(
        new Kelvins(double.NaN), new Kelvins(1), new Kelvins(1), TimeSpan.FromHours(1), TimeSpan.FromHours(1), InputHold.PiecewiseLinear));

    [Fact]
    public void Blocks_keep_their_neighbours_and_run_round_the_end()
    {
        double[] series = [0, 1, 2, 3, 4, 5, 6];
        var drawn = new double[12];
        BlockBootstrap.Resample(series, 4, new Random(2), drawn);
        for (var i = 0; i < drawn.Length; i++)
        {
            Assert.True(i % 4 == 0 || drawn[i] == (drawn[i - 1] + 1) % 7);
        }
    }

    [Fact]
    public void Percentiles_leave_the_same_share_at_both_ends()
    {
        var interval = BlockBootstrap.Percentiles([.. Enumerable.Range(0, 101).Select(i => (double)i)], 0.9);
        Assert.Equal(5.0, interval.Low, 1e-9);
        Assert.Equal(95.0, interval.High, 1e-9);
    }

    [Fact]
    public void Residuals_that_hang_together_are_worth_fewer()
    {
        // An autoregression with φ = 0.8 is worth (1 − φ)/(1 + φ) = 1/9 of its values; here 4 000 of them.
        var chance = new Random(1);
        var residuals = new double[4000];
        for (var i = 1; i < residuals.Length; i++)
        {
            residuals[i] = (0.8 * residuals[i - 1]) + DriftFitSynthetic.Normal(chance);
        }

        Assert.InRange(ResidualCorrelation.EffectiveSampleSize(residuals), 300.0, 600.0);
    }

    [Fact]
    public void A_column_that_repeats_another_gets_nothing()
    {
        var solution = LinearLeastSquares.Solve([[1, 1, 1, 1], [0, 1, 2, 3], [1, 3, 5, 7]], [2, 5, 8, 11]);
        Assert.Equal([2.0, 3.0, 0.0], solution.Coefficients.Select(c => Math.Round(c, 9)));
        Assert.Equal(0.0, solution.SumOfSquares, 1e-20);
    }

    [Fact]
    public void More_columns_than_observations_are_refused() =>
        Assert.Throws<ArgumentException>(() => LinearLeastSquares.Solve([[1.0], [2.0]], [1.0]));
}
