using ClimateGuard.Plant;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class ThermalFormulas
{
    private static readonly Gen<ConductionGeometry> Geometry =
        Gen.OneOf(Gen.Const(ConductionGeometry.PlaneWall), Gen.Const(ConductionGeometry.LongCylinder), Gen.Const(ConductionGeometry.Sphere));

    private static readonly Gen<double> Biot = Gen.Double[-5, 4].Select(x => Math.Pow(10, x));
    private static readonly Gen<double> Fourier = Gen.Double[-7, 1].Select(x => Math.Pow(10, x));

    [Fact]
    public void The_weights_of_the_mean_sum_to_one() => Gen.Select(Geometry, Biot.Where(b => b < 5)).Sample(
        (geometry, biot) =>
        {
            var sum = ConductionEigenvalues.First(geometry, biot, 60).Sum(mode => mode.MeanWeight);
            // Later weights fall as 2·Bi²/ζ⁴ (times the dimension), so 60 leave less than this.
            return sum <= 1 + 1e-12 && sum >= 1 - 1e-12 - (6 * biot * biot / (3 * Math.PI * Math.Pow(59 * Math.PI, 3)));
        },
        iter: 100);

    [Fact]
    public void A_body_only_ever_comes_nearer_to_its_medium() => Gen.Select(Geometry, Biot, Fourier, Gen.Double[1.01, 3]).Sample(
        (geometry, biot, fourier, factor) =>
        {
            var (early, late) = (TransientConduction.Mean(geometry, biot, fourier), TransientConduction.Mean(geometry, biot, fourier * factor));
            return late <= early + 5e-5 && late >= 0 && early <= 1;
        },
        iter: 500);

    [Fact]
    public void The_mean_lies_between_surface_and_centre() => Gen.Select(Geometry, Biot, Fourier).Sample(
        (geometry, biot, fourier) =>
        {
            var mean = TransientConduction.Mean(geometry, biot, fourier);
            return mean >= TransientConduction.Surface(geometry, biot, fourier) - 1e-6
                && mean <= TransientConduction.Centre(geometry, biot, fourier) + 1e-6;
        },
        iter: 500);

    [Fact]
    public void The_nodes_of_a_part_sum_to_one_and_the_first_is_the_slow_one() => Gen.Select(
        Gen.OneOf(Gen.Const(PartShape.Slab), Gen.Const(PartShape.Cylinder), Gen.Const(PartShape.Disc)), Gen.Double[0.002, 0.3], Gen.Double[0.2, 1], Gen.Double[2, 10_000], Gen.Double[1, 400])
        .Sample(
            (shape, half, share, h, conductivity) =>
            {
                var material = new Material
                {
                    Id = "any",
                    AlphaMicrometresPerMetreKelvin = 12,
                    ConductivityWattsPerMetreKelvin = conductivity,
                    DensityKilogramsPerCubicMetre = 5000,
                    SpecificHeatJoulesPerKilogramKelvin = 600,
                };
                var modes = ConductionModes.For(shape, half, half * share, material, h);
                return Math.Abs(modes.Sum(mode => mode.Weight) - 1) < 1e-12
                    && modes.All(mode => mode.Weight > 0 && mode.TimeConstant > TimeSpan.Zero)
                    && modes.Zip(modes.Skip(1)).All(pair => pair.First.TimeConstant > pair.Second.TimeConstant);
            },
            iter: 500);

    private static readonly Gen<Contribution[]> Lines =
        Gen.Select(Gen.Double[0, 10], Gen.Double[-5, 5], Gen.Double[1, 100]).Array[1, 8]
            .Select(lines => lines.Select((line, i) => new Contribution($"line {i}", 0, line.Item1, line.Item2, line.Item3)).ToArray());

    [Fact]
    public void One_more_independent_contribution_never_lowers_the_uncertainty() => Lines.Sample(lines =>
        new UncertaintyBudget(0, lines).CombinedStandardUncertainty
        >= new UncertaintyBudget(0, lines[..^1]).CombinedStandardUncertainty * (1 - 1e-15));

    [Fact]
    public void Effective_degrees_of_freedom_lie_between_the_smallest_and_the_sum() => Lines.Sample(lines =>
    {
        var effective = new UncertaintyBudget(0, lines).EffectiveDegreesOfFreedom;
        return lines.All(line => line.Magnitude < 1e-6)
            || (effective >= lines.Min(line => line.DegreesOfFreedom) - 1e-9 && effective <= lines.Sum(line => line.DegreesOfFreedom) + 1e-6);
    });

    [Fact]
    public void Correlation_moves_the_uncertainty_between_difference_and_sum() => Gen.Select(Gen.Double[0, 5], Gen.Double[0, 5], Gen.Double[-1, 1]).Sample(
        (first, second, r) =>
        {
            var u = new UncertaintyBudget(0, [new("a", 0, first, 1), new("b", 0, second, 1)], [new("a", "b", r)]).CombinedStandardUncertainty;
            return u >= Math.Abs(first - second) - 1e-6 && u <= first + second + 1e-9;
        });

    [Fact]
    public void A_seed_fixes_every_draw() => Gen.Select(Gen.ULong, Gen.Int[1, 70]).Sample(
        (seed, size) =>
        {
            var (first, second, whole) = (new double[size], new double[size], new double[size * 2]);
            var stream = new GaussianStream(seed);
            stream.Fill(first);
            stream.Fill(second);
            new GaussianStream(seed).Fill(whole);
            return whole.AsSpan(0, size).SequenceEqual(first) && whole.AsSpan(size).SequenceEqual(second)
                && whole.All(x => Math.Abs(x) < 8.6);
        });

    [Fact]
    public void A_seed_fixes_a_monte_carlo_result() => Gen.ULong.Sample(
        seed =>
        {
            MonteCarloResult Run() => MonteCarlo.Propagate(
                [InputDistribution.StudentT(0, 1, 3), InputDistribution.Arcsine(-1, 1), InputDistribution.Triangular(0, 1)],
                x => x[0] + (x[1] * x[2]), 300, seed);
            var (one, two) = (Run(), Run());
            return one.Mean == two.Mean && one.StandardDeviation == two.StandardDeviation && one.Shortest(0.9) == two.Shortest(0.9);
        },
        iter: 50);

    [Fact]
    public void The_shortest_interval_is_never_longer_than_the_symmetric_one() => Gen.Select(Gen.ULong, Gen.Double[0.5, 0.99]).Sample(
        (seed, probability) =>
        {
            var result = MonteCarlo.Propagate([InputDistribution.Gaussian(0, 1)], x => x[0] * x[0], 400, seed);
            return result.Shortest(probability).Length <= result.Symmetric(probability).Length;
        },
        iter: 100);

    [Fact]
    public void Quantile_and_probability_are_inverse() => Gen.Double[-9, 6].Sample(z =>
    {
        var p = StandardNormal.Cdf(z);
        // In the upper tail p itself has only so many digits left.
        return p is <= 0 or >= 1 || Math.Abs(StandardNormal.Quantile(p) - z) <= 1e-12 + (3e-16 / StandardNormal.Density(z));
    });

    [Fact]
    public void A_coverage_factor_falls_with_the_degrees_of_freedom() => Gen.Select(Gen.Double[0.5, 0.999], Gen.Double[1, 500], Gen.Double[1.01, 10]).Sample(
        (p, degrees, factor) => CoverageFactor.TwoSided(p, degrees * factor) < CoverageFactor.TwoSided(p, degrees) + 1e-9
            && CoverageFactor.TwoSided(p) < CoverageFactor.TwoSided(p, degrees) + 1e-9,
        iter: 300);

    [Fact]
    public void The_ends_of_an_acceptance_interval_have_the_probability_asked_for() => Gen.Select(Gen.Double[0.01, 5], Gen.Double[1, 20], Gen.Double[0.5, 0.999]).Sample(
        (u, half, p) => Conformance.AcceptanceInterval(u, -half, half, p) is not { } interval
            ? Conformance.Between(0, u, -half, half) < p
            : Math.Abs(Conformance.Between(interval.Highest, u, -half, half) - p) < 1e-9
                && Math.Abs(interval.Lowest + interval.Highest) < 1e-9);

    [Fact]
    public void Dew_point_wet_bulb_and_dry_bulb_are_in_order() => Gen.Select(Gen.Double[-30, 50], Gen.Double[0.05, 1]).Sample((t, humidity) =>
    {
        var air = MoistAir.AtRelativeHumidity(new(t), humidity);
        return air.DewPoint.Value <= air.WetBulb.Value + 1e-9 && air.WetBulb.Value <= t + 1e-9;
    });

    [Fact]
    public void Saturation_pressure_and_temperature_are_inverse() => Gen.Double[-99, 199].Sample(
        t => Math.Abs(t) < 1e-3 || Math.Abs(SaturationPressure.TemperatureAt(SaturationPressure.Pascals(new(t))).Value - t) < 1e-7);

    [Fact]
    public void A_longer_window_never_shows_a_smaller_range() => Gen.Select(Gen.Double[-10, 10].Array[2, 60], Gen.Int[0, 60], Gen.Int[0, 60]).Sample((values, a, b) =>
    {
        List<(TimeSpan, double)> samples = [.. values.Select((value, i) => (TimeSpan.FromMinutes(i), value))];
        var shorter = WindowedRange.Largest(samples, TimeSpan.FromMinutes(Math.Min(a, b))).Range;
        var longer = WindowedRange.Largest(samples, TimeSpan.FromMinutes(Math.Max(a, b))).Range;
        var window = Math.Min(a, b);
        var slow = Enumerable.Range(0, values.Length).Max(i => values.Skip(i).Take(window + 1).Max() - values.Skip(i).Take(window + 1).Min());
        return longer >= shorter && Math.Abs(shorter - slow) < 1e-12;
    });
}
