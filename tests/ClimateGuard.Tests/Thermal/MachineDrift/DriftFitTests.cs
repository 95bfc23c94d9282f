using ClimateGuard.Plant;
using ClimateGuard.Thermal;
using static ClimateGuard.Tests.Thermal.MachineDrift.DriftFitSynthetic;

namespace ClimateGuard.Tests.Thermal.MachineDrift;

public sealed class DriftFitTests
{
    private static readonly DriftFitOptions Options = new();
    private static readonly double[] ThreeDays = Every(1, 72);

    private static readonly Lazy<DriftFitResult> GantryFit = new(() =>
        DriftFit.Fit(Record(ThreeDays, SetBack, Displacement(ThreeDays, SetBack, Gantry, seed: 1)), Axis.Z, Options, new Random(7)));

    [Fact]
    public void Two_modes_of_opposite_sign_are_recovered_within_their_ranges()
    {
        var fit = GantryFit.Value;

        Assert.Equal(DriftFitOutcome.TwoModes, fit.Outcome);
        Assert.Equal(2, fit.Modes.Count);
        AssertHolds(fit.Modes[0].SensitivityInterval, -5.0, 0.5);
        AssertHolds(fit.Modes[0].TimeConstantHoursInterval, 1.2, 0.2);
        AssertHolds(fit.Modes[1].SensitivityInterval, 14.0, 1.0);
        AssertHolds(fit.Modes[1].TimeConstantHoursInterval, 14.0, 1.0);
        AssertHolds(fit.TotalInterval, 9.0, 1.0);
        Assert.Empty(fit.Warnings);
    }

    [Fact]
    public void The_noise_and_the_offset_come_back()
    {
        var fit = GantryFit.Value;

        Assert.InRange(fit.ResidualStandardDeviationMicrometres!.Value, 0.28, 0.32);
        Assert.InRange(fit.OffsetMicrometres!.Value, 2.8, 3.2);
        Assert.InRange(fit.EffectiveSampleSize, 0.5 * fit.StepCount, fit.StepCount);
    }

    [Fact]
    public void The_fitted_machine_goes_down_first_and_up_later_after_a_step_of_one_kelvin()
    {
        var modes = GantryFit.Value.Modes;
        double After(double hours) =>
            modes.Sum(mode => mode.SensitivityMicrometresPerKelvin * (1.0 - Math.Exp(-hours / mode.TimeConstant.TotalHours)));

        // -5·(1 − e^(−t/1.2)) + 14·(1 − e^(−t/14)) at 0.5 h, 4 h and 24 h, worked by hand.
        Assert.Equal(-1.2127, After(0.5), 0.05);
        Assert.Equal(-1.3423, After(4.0), 0.05);
        Assert.Equal(6.4787, After(24.0), 0.05);
    }

    [Fact]
    public void The_modes_go_into_a_machine_description_as_fitted()
    {
        var modes = GantryFit.Value.ToDriftModes();

        Assert.All(modes, mode => Assert.Equal((Axis.Z, Provenance.Fitted), (mode.Axis, mode.Provenance)));
        Assert.All(modes, mode => Assert.InRange(mode.RelativeUncertainty, 0.02, 0.05));
        Assert.Equal([-5.0, 14.0], modes.Select(mode => Math.Round(mode.SensitivityMicrometresPerKelvin)));
    }

    [Fact]
    public void Later_blocks_are_foretold_better_than_by_the_last_re_probe()
    {
        var validation = GantryFit.Value.Validation!;

        Assert.True(validation.BetterThanSimplest);
        Assert.True(validation.FitMicrometres < 0.3);
        Assert.True(validation.LastReprobeMicrometres > 1.0);
        Assert.True(validation.NoModelMicrometres > 1.0);
    }

    [Fact]
    public void The_same_seed_gives_the_same_ranges()
    {
        var options = Options with { BootstrapReplicates = 20 };
        var hours = Every(5, 48);
        var record = Record(hours, SetBack, Displacement(hours, SetBack, Gantry, seed: 2));

        var first = DriftFit.Fit(record, Axis.Z, options, new Random(3));
        var second = DriftFit.Fit(record, Axis.Z, options, new Random(3));

        Assert.Equal(first.Modes, second.Modes);
        Assert.NotEqual(first.Modes, DriftFit.Fit(record, Axis.Z, options, new Random(4)).Modes);
    }

    [Fact]
    public void Without_chance_there_are_no_ranges_and_the_stated_uncertainty_stays()
    {
        var fit = DriftFit.Fit(Record(ThreeDays, SetBack, Displacement(ThreeDays, SetBack, Gantry, seed: 1)), Axis.Z, Options);

        Assert.All(fit.Modes, mode => Assert.Null(mode.SensitivityInterval));
        Assert.All(fit.ToDriftModes(), mode => Assert.Equal(0.3, mode.RelativeUncertainty));
    }

    [Fact]
    public void A_single_slow_mode_is_not_given_a_partner()
    {
        var fit = DriftFit.Fit(Record(ThreeDays, SetBack, Displacement(ThreeDays, SetBack, [(6.0, 14.0)], seed: 5)), Axis.Z, Options);

        Assert.Equal(DriftFitOutcome.OneMode, fit.Outcome);
        var mode = Assert.Single(fit.Modes);
        Assert.Equal(6.0, mode.SensitivityMicrometresPerKelvin, 0.1);
        Assert.Equal(14.0, mode.TimeConstant.TotalHours, 0.3);
    }

    [Fact]
    public void A_machine_that_was_not_at_rest_when_the_record_began_is_fitted_without_bias_only_when_that_is_allowed_for()
    {
        var displacement = Displacement(ThreeDays, DaySwing, Gantry, seed: 6, startKelvins: 2.5);
        var record = Record(ThreeDays, DaySwing, displacement);

        var free = DriftFit.Fit(record, Axis.Z, Options);
        var atRest = DriftFit.Fit(record, Axis.Z, Options with { FitInitialState = false });

        Assert.Equal(14.0, free.Modes[1].SensitivityMicrometresPerKelvin, 0.5);
        Assert.True(Math.Abs(atRest.Modes.Sum(mode => mode.SensitivityMicrometresPerKelvin) - 9.0) > 1.0);
    }

    [Fact]
    public void Coarse_and_irregular_samples_give_the_same_machine()
    {
        var chance = new Random(11);
        double[] hours = [.. Every(4, 72).Select(h => h + (chance.NextDouble() * 0.06))];
        var fit = DriftFit.Fit(Record(hours, SetBack, Displacement(hours, SetBack, Gantry, seed: 8)), Axis.Z, Options);

        Assert.Equal(-5.0, fit.Modes[0].SensitivityMicrometresPerKelvin, 0.15);
        Assert.Equal(14.0, fit.Modes[1].SensitivityMicrometresPerKelvin, 0.15);
    }

    [Fact]
    public void A_set_point_that_is_kept_between_samples_is_fitted_with_the_hold_that_keeps_it()
    {
        // Samples only every 20 min, and the air jumps right after one of them.
        static double Stepped(double hours) => Math.Floor((hours * 3.0) + 1e-9) % 48 < 24 ? 20.0 : 21.5;
        var hours = Every(20, 72);
        var record = Record(hours, Stepped, Displacement(hours, Stepped, [(4.0, 0.5)], seed: 9, noiseMicrometres: 0.05));

        var kept = DriftFit.Fit(record, Axis.Z, Options with { Hold = InputHold.PiecewiseConstant });
        var straight = DriftFit.Fit(record, Axis.Z, Options);

        Assert.Equal(0.5, kept.Modes[0].TimeConstant.TotalHours, 0.02);
        Assert.True(Math.Abs(straight.Modes[0].TimeConstant.TotalHours - 0.5) > 0.1);
    }

    private static void AssertHolds(DriftInterval? interval, double truth, double widest)
    {
        Assert.NotNull(interval);
        Assert.InRange(truth, interval.Value.Low, interval.Value.High);
        Assert.InRange(interval.Value.High - interval.Value.Low, 0.0, widest);
    }
}
