using ClimateGuard.Plant;
using ClimateGuard.Thermal;
using static ClimateGuard.Tests.Thermal.MachineDrift.DriftFitSynthetic;

namespace ClimateGuard.Tests.Thermal.MachineDrift;

public sealed class DriftFitNotIdentifiedTests
{
    private static readonly DriftFitOptions Options = new() { BootstrapReplicates = 40 };
    private static readonly double[] ThreeDays = Every(1, 72);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Twenty_hours_show_the_fast_mode_but_not_the_slow_one(int seed)
    {
        var fit = DriftFit.Fit(TwentyHours(seed), Axis.Z, Options, new Random(1));

        Assert.Equal(DriftFitOutcome.SlowModeNotIdentified, fit.Outcome);
        Assert.StartsWith("slow mode not identified: ", fit.Reason, StringComparison.Ordinal);
        Assert.Contains("20.0 h", fit.Reason, StringComparison.Ordinal);
        Assert.Equal(-5.0, Assert.Single(fit.Modes).SensitivityMicrometresPerKelvin, 0.5);
        Assert.Null(fit.TotalMicrometresPerKelvin);
        Assert.Null(fit.TotalInterval);
        Assert.Null(fit.Validation);
        Assert.Contains(fit.Warnings, warning => warning.Contains("24 h is the usual minimum", StringComparison.Ordinal));
        Assert.Contains(fit.Warnings, warning => warning.StartsWith("not validated", StringComparison.Ordinal));
    }

    [Fact]
    public void A_slow_mode_that_was_not_identified_is_assumed_against_the_fast_one_and_wide()
    {
        var modes = DriftFit.Fit(TwentyHours(1), Axis.Z, Options, new Random(1)).ToDriftModes();

        Assert.Equal(new DriftMode(Axis.Z, 6.0, TimeSpan.FromHours(8), 1.0, Provenance.Default), modes[1]);
        Assert.Equal(Provenance.Fitted, modes[0].Provenance);
    }

    [Fact]
    public void A_stated_prior_takes_the_place_of_the_assumed_one_and_stays_wide()
    {
        var stated = new DriftMode(Axis.X, 11.0, TimeSpan.FromHours(12), 0.2, Provenance.Measured);

        var fit = DriftFit.Fit(TwentyHours(1), Axis.Z, Options with { SlowPrior = stated });

        Assert.Equal(stated with { Axis = Axis.Z, RelativeUncertainty = 1.0 }, fit.SlowPrior);
    }

    [Fact]
    public void A_fast_mode_alone_in_a_short_record_leaves_the_slow_one_open()
    {
        var hours = Every(1, 10);
        double Air(double h) => SetBack(h + 18.0);
        var fit = DriftFit.Fit(Record(hours, Air, Displacement(hours, Air, [(4.0, 1.0)], seed: 3)), Axis.Z, Options);

        Assert.Equal(DriftFitOutcome.SlowModeNotIdentified, fit.Outcome);
        Assert.Equal(4.0, Assert.Single(fit.Modes).SensitivityMicrometresPerKelvin, 0.2);
        Assert.Equal(-6.0, fit.SlowPrior!.SensitivityMicrometresPerKelvin);
    }

    [Fact]
    public void Air_that_hardly_moves_shows_nothing()
    {
        static double Still(double hours) => 20.0 + (0.1 * Math.Sin(hours / 4.0));
        var fit = DriftFit.Fit(Record(ThreeDays, Still, Displacement(ThreeDays, Still, Gantry, seed: 1)), Axis.Z, Options, new Random(1));

        Assert.Equal(DriftFitOutcome.NotIdentified, fit.Outcome);
        Assert.StartsWith("not identified: the air moved only 0.2 K", fit.Reason, StringComparison.Ordinal);
        Assert.Empty(fit.ToDriftModes());
    }

    [Fact]
    public void Constant_air_and_a_constant_displacement_show_nothing_and_do_not_fail()
    {
        var fit = DriftFit.Fit(Record(ThreeDays, _ => 21.0, new double[ThreeDays.Length]), Axis.Z, Options, new Random(1));

        Assert.Equal(DriftFitOutcome.NotIdentified, fit.Outcome);
        Assert.StartsWith("not identified: the air moved only 0.0 K", fit.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_machine_that_does_not_move_at_all_has_no_modes()
    {
        var fit = DriftFit.Fit(Record(ThreeDays, SetBack, new double[ThreeDays.Length]), Axis.Z, Options, new Random(1));

        Assert.Equal(DriftFitOutcome.NoTemperatureResponse, fit.Outcome);
        Assert.Empty(fit.ToDriftModes());
        Assert.False(fit.Validation!.BetterThanSimplest);
    }

    [Theory]
    [InlineData(0.2, 0.0)]
    [InlineData(0.02, 0.0)]
    [InlineData(0.2, -0.0015)]
    public void A_creep_without_temperature_is_no_mode(double perHour, double perHourSquared)
    {
        var chance = new Random(4);
        double[] creep = [.. ThreeDays.Select(h => (perHour * h) + (perHourSquared * h * h) + (0.3 * Normal(chance)))];

        var fit = DriftFit.Fit(Record(ThreeDays, SetBack, creep), Axis.Z, Options, new Random(1));

        Assert.Equal(DriftFitOutcome.NoTemperatureResponse, fit.Outcome);
        Assert.Empty(fit.Modes);
        Assert.Null(fit.SlowPrior);
    }

    [Fact]
    public void A_machine_that_only_settles_after_being_switched_on_has_no_mode()
    {
        var chance = new Random(5);
        double[] settling = [.. ThreeDays.Select(h => (12.0 * Math.Exp(-h / 5.0)) + (0.3 * Normal(chance)))];

        Assert.Equal(DriftFitOutcome.NoTemperatureResponse, DriftFit.Fit(Record(ThreeDays, SetBack, settling), Axis.Z, Options).Outcome);
    }

    [Fact]
    public void A_wandering_displacement_never_yields_a_mode_that_is_both_claimed_and_narrow()
    {
        for (var seed = 0; seed < 12; seed++)
        {
            var chance = new Random(seed);
            var place = 0.0;
            double[] walk = [.. ThreeDays.Select(_ => (place += 0.05 * Normal(chance)) + (0.3 * Normal(chance)))];

            var fit = DriftFit.Fit(Record(ThreeDays, SetBack, walk), Axis.Z, Options);

            Assert.All(fit.ToDriftModes(), mode => Assert.True(mode.RelativeUncertainty >= 1.0));
            var told = fit.Warnings.Any(warning => warning.StartsWith("not better than the simplest", StringComparison.Ordinal));
            Assert.True(fit.Modes.Count == 0 || told);
        }
    }

    private static DriftTestRecord TwentyHours(int seed)
    {
        var hours = Every(1, 20);
        double Air(double h) => SetBack(h + 14.0);
        return Record(hours, Air, Displacement(hours, Air, Gantry, seed));
    }
}
