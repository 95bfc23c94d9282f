using ClimateGuard.Plant;
using ClimateGuard.Thermal;
using static ClimateGuard.Tests.Thermal.MachineDrift.DriftFitSynthetic;

namespace ClimateGuard.Tests.Thermal.MachineDrift;

public sealed class DriftFitInputTests
{
    private static readonly DriftFitOptions Options = new();

    [Fact]
    public void A_repeated_time_is_refused_with_its_place()
    {
        var error = Assert.Throws<ArgumentException>(() => Record([0.0, 0.1, 0.1], DaySwing, [1.0, 2.0, 3.0]));
        Assert.Contains("Sample 3 at 2025-03-03 06:06:00Z is not later", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_displacement_that_is_not_a_number_is_refused_with_its_place()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => Record([0.0, 0.1, 0.2], DaySwing, [1.0, double.NaN, 3.0]));
        Assert.Contains("displacement of Z of sample 2 at 2025-03-03 06:06:00Z", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-91.0)]
    public void A_temperature_that_cannot_be_is_refused_with_its_place(double celsius)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => Record([0.0, 0.1], _ => celsius, [1.0, 2.0]));
        Assert.Contains("temperature of sample 1", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Lengths_that_differ_are_refused() =>
        Assert.Contains(
            "3 times but 2 displacements of Z",
            Assert.Throws<ArgumentException>(() => Record([0.0, 0.1, 0.2], DaySwing, [1.0, 2.0])).Message,
            StringComparison.Ordinal);

    [Fact]
    public void A_single_sample_is_refused() => Assert.Throws<ArgumentException>(() => Record([0.0], DaySwing, [1.0]));

    [Fact]
    public void An_axis_that_was_not_recorded_is_refused_with_those_that_were()
    {
        var record = Record([0.0, 0.1], DaySwing, [1.0, 2.0]);
        Assert.Contains(
            "did not record X; it has Z",
            Assert.Throws<ArgumentException>(() => record.DisplacementMicrometres(Axis.X)).Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_gap_of_three_days_starts_the_modes_anew_and_is_told()
    {
        double[] hours = [.. Every(1, 72).Select(h => h < 36.0 ? h : h + 72.0)];
        // The machine and its air go on in the gap, and somebody zeroes the indicator before the second stretch.
        static double Air(double h) => h < 72.0 ? SetBack(h) : SetBack(h - 72.0);
        double[] displacement = [.. Displacement(hours, Air, Gantry, seed: 1).Select((d, i) => hours[i] > 72.0 ? d - 8.0 : d)];

        var fit = DriftFit.Fit(Record(hours, Air, displacement), Axis.Z, Options);

        Assert.Contains(fit.Warnings, warning => warning.StartsWith("gap of 72.0 h after 2025-03-04 17:59:00Z", StringComparison.Ordinal));
        Assert.Equal(DriftFitOutcome.TwoModes, fit.Outcome);
        Assert.Equal(-5.0, fit.Modes[0].SensitivityMicrometresPerKelvin, 0.2);
        Assert.Equal(14.0, fit.Modes[1].SensitivityMicrometresPerKelvin, 0.3);
        Assert.Equal(36.0, fit.Duration.TotalHours, 0.1);
    }

    [Fact]
    public void A_stretch_too_short_to_say_anything_is_left_out_and_told()
    {
        double[] hours = [.. Every(1, 48), .. Every(1, 0.5).Select(h => h + 60.0)];
        var fit = DriftFit.Fit(Record(hours, SetBack, Displacement(hours, SetBack, Gantry, seed: 1)), Axis.Z, Options);

        Assert.Contains(
            fit.Warnings, warning => warning.StartsWith("31 samples from 2025-03-05 18:00:00Z left out", StringComparison.Ordinal));
        Assert.Equal(577, fit.StepCount);
    }

    [Fact]
    public void A_record_with_an_hour_between_samples_is_refused_with_what_to_do()
    {
        var hours = Every(60, 72);
        var record = Record(hours, SetBack, Displacement(hours, SetBack, Gantry, seed: 1));
        Assert.Contains(
            "record longer or more often",
            Assert.Throws<ArgumentException>(() => DriftFit.Fit(record, Axis.Z, Options)).Message,
            StringComparison.Ordinal);
        Assert.Equal(
            DriftFitOutcome.TwoModes, DriftFit.Fit(record, Axis.Z, Options with { MaximumGap = TimeSpan.FromHours(2) }).Outcome);
    }

    [Fact]
    public void The_shortest_record_that_is_accepted_gives_an_outcome()
    {
        double[] hours = [0.0, 0.5, 1.0, 1.5, 2.0];
        var fit = DriftFit.Fit(Record(hours, h => 20.0 + h, [0.0, 1.0, 2.0, 3.0, 4.0]), Axis.Z, Options, new Random(1));
        Assert.Empty(fit.Modes);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(0.0)]
    [InlineData(1.0)]
    public void A_confidence_outside_its_range_is_refused(double confidence)
    {
        var record = Record([0.0, 0.1], DaySwing, [1.0, 2.0]);
        Assert.Throws<ArgumentOutOfRangeException>(() => DriftFit.Fit(record, Axis.Z, Options with { Confidence = confidence }));
    }
}
