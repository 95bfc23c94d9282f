using ClimateGuard.Plant;
using ClimateGuard.Tests.Thermal.MachineDrift;
using ClimateGuard.Thermal;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

public sealed class DriftFitProperties
{
    private static readonly DriftFitOptions Options = new() { GridPoints = 16 };
    private static readonly double[] Hours = DriftFitSynthetic.Every(10, 48);

    [Fact]
    public void Scaling_the_displacement_scales_the_sensitivities_and_nothing_else() =>
        Gen.Select(Gen.Int[0, 1000], Gen.Double[0.2, 5.0], Gen.Double[-100.0, 100.0]).Sample(
            (seed, factor, shift) =>
            {
                var displacement = Machine(seed);
                var plain = Fit(displacement);
                var scaled = Fit([.. displacement.Select(d => (d * factor) + shift)]);
                return plain.Outcome == scaled.Outcome
                    && plain.Modes.Zip(scaled.Modes).All(pair =>
                        Near(pair.First.SensitivityMicrometresPerKelvin * factor, pair.Second.SensitivityMicrometresPerKelvin)
                        && Near(pair.First.TimeConstant.TotalHours, pair.Second.TimeConstant.TotalHours));
            },
            iter: 12);

    [Fact]
    public void The_order_of_the_axes_does_not_matter() =>
        Gen.Select(Gen.Int[0, 1000], Gen.Int[0, 1000]).Sample(
            (first, second) =>
            {
                var (x, z) = (Machine(first), Machine(second));
                var record = Both((Axis.X, x), (Axis.Z, z));
                var turned = Both((Axis.Z, z), (Axis.X, x));
                return DriftFit.Fit(record, Axis.Z, Options).Modes.SequenceEqual(DriftFit.Fit(turned, Axis.Z, Options).Modes)
                    && DriftFit.Fit(record, Axis.X, Options).Modes.SequenceEqual(Fit(x, Axis.X).Modes);
            },
            iter: 8);

    [Fact]
    public void A_step_cut_in_two_gives_the_same_state() =>
        Gen.Select(Gen.Double[-5, 5], Gen.Double[-5, 5], Gen.Double[-5, 5], Gen.Double[0.01, 0.99], Gen.Double[0.05, 60]).Sample(
            (state, before, after, share, tau) =>
            {
                Kelvins Step(Kelvins from, double u0, double u1, double hours) => ExactFilter.Step(
                    from, new Kelvins(u0), new Kelvins(u1), TimeSpan.FromHours(hours), TimeSpan.FromHours(tau), InputHold.PiecewiseLinear);
                var middle = before + (share * (after - before));
                var half = Step(new Kelvins(state), before, middle, 3.0 * share);
                var twice = Step(half, middle, after, 3.0 * (1.0 - share));
                return Math.Abs(twice.Value - Step(new Kelvins(state), before, after, 3.0).Value) < 1e-7;
            });

    [Fact]
    public void A_filter_never_leaves_the_range_of_what_it_follows() =>
        Gen.Select(Gen.Double[-5, 5], Gen.Double[-5, 5], Gen.Double[-5, 5], Gen.Double[0.001, 100], Gen.Double[0.05, 60]).Sample(
            (state, before, after, hours, tau) =>
            {
                var theta = ExactFilter.Step(
                    new Kelvins(state),
                    new Kelvins(before),
                    new Kelvins(after),
                    TimeSpan.FromHours(hours),
                    TimeSpan.FromHours(tau),
                    InputHold.PiecewiseLinear);
                double[] all = [state, before, after];
                return theta.Value >= all.Min() - 1e-9 && theta.Value <= all.Max() + 1e-9;
            });

    private static double[] Machine(int seed) =>
        DriftFitSynthetic.Displacement(Hours, Air, [(-3.0 - (seed % 3), 1.0), (9.0, 9.0)], seed);

    private static double Air(double hours) => DriftFitSynthetic.SetBack(hours + 10.0);

    private static DriftFitResult Fit(double[] displacement, Axis axis = Axis.Z) =>
        DriftFit.Fit(DriftFitSynthetic.Record(Hours, Air, displacement, axis), axis, Options);

    private static DriftTestRecord Both((Axis Axis, double[] Values) first, (Axis Axis, double[] Values) second) => new(
        [.. Hours.Select(h => DriftFitSynthetic.Start + TimeSpan.FromHours(h))],
        [.. Hours.Select(h => new Celsius(Air(h)))],
        new Dictionary<Axis, IReadOnlyList<double>> { [first.Axis] = first.Values, [second.Axis] = second.Values });

    private static bool Near(double left, double right) => Math.Abs(left - right) <= 1e-4 * Math.Abs(left);
}
