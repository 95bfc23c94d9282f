using ClimateGuard.Enclosure;
using ClimateGuard.Tests.Support;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class ForecastProperties
{
    private static readonly Gen<int> Seed = Gen.Int[1, 100_000];

    [Fact]
    public void The_spread_of_a_reversion_grows_with_the_horizon_and_ends_at_its_deviation() =>
        Gen.Select(Gen.Double[-30, 30], Gen.Double[0.01, 0.999], Gen.Double[0.001, 5], Gen.Int[0, 40]).Sample((mean, keep, deviation, steps) =>
        {
            var model = new Ar1(mean, keep, deviation);
            return model.DeviationAfter(steps + 1) >= model.DeviationAfter(steps) && model.DeviationAfter(steps) <= deviation
                && model.DeviationAfter(100_000) > 0.99 * deviation && model.DeviationAfter(0) == 0;
        });

    [Fact]
    public void A_reversion_comes_ever_nearer_to_its_mean() =>
        Gen.Select(Gen.Double[-30, 30], Gen.Double[0, 0.999], Gen.Double[-30, 30], Gen.Int[0, 40]).Sample((mean, keep, last, steps) =>
        {
            var model = new Ar1(mean, keep, 1);
            return Math.Abs(model.After(last, steps + 1) - mean) <= Math.Abs(model.After(last, steps) - mean) + 1e-12 && model.After(last, 0) == mean + (last - mean);
        });

    [Fact]
    public void The_forecast_of_a_constant_is_the_constant() => Gen.Select(Gen.Double[10, 30], Gen.Double[10, 30], Gen.Int[1, 400]).Sample(
        (air, setpoint, hours) =>
        {
            var forecaster = CourseOf.Forecaster();
            foreach (var moment in CourseOf.Values(Enumerable.Repeat(air, hours), 60, setpoint)) forecaster.Take(moment);
            return forecaster.Latest.Points.Count == 9 && forecaster.Latest.Points.All(p => Math.Abs(p.Celsius - air) < 1e-6);
        },
        iter: 20);

    [Fact]
    public void The_rung_in_use_is_never_worse_than_persistence_on_its_own_score() => Seed.Sample(
        seed =>
        {
            var forecaster = Lived(seed, days: 4);
            for (var h = 0; h < 9; h++)
            {
                var cell = forecaster.CellOf(Regime.InControl, h);
                cell.Choose();
                if (cell.Chosen != AirModelKind.Persistence && !(cell.Ratio(cell.Chosen) < 1)) return false;
            }

            return true;
        },
        iter: 20);

    [Fact]
    public void The_interval_holds_the_forecast_and_few_errors_make_it_wider() => Seed.Sample(
        seed => Lived(seed, days: 2).Latest.Points.All(p => p.LowCelsius <= p.Celsius && p.Celsius <= p.HighCelsius && (p.Widened || p.Residuals >= 50)),
        iter: 20);

    [Fact]
    public void A_moment_out_of_order_or_twice_changes_nothing() => Gen.Select(Seed, Gen.Int[0, 2879]).Sample(
        (seed, minute) =>
        {
            var forecaster = Lived(seed, days: 2);
            var before = forecaster.Latest;
            return !forecaster.Take(CourseOf.Minute(minute, 35)) && ReferenceEquals(before, forecaster.Latest) && forecaster.Course.LeftOut == 1;
        },
        iter: 20);

    // A slow wander about the set point, with a swing of the day.
    private static ZoneForecaster Lived(int seed, int days)
    {
        var random = new Random(seed);
        var (keep, swing) = (random.NextDouble(), random.NextDouble());
        var forecaster = CourseOf.Forecaster();
        var departure = 0.0;
        for (var minute = 0; minute < days * 24 * 60; minute++)
        {
            departure = (keep * departure) + (0.1 * (random.NextDouble() - 0.5));
            forecaster.Take(CourseOf.Minute(minute, 20 + departure + (swing * Math.Sin(minute * Math.PI / 720))));
        }

        return forecaster;
    }
}
