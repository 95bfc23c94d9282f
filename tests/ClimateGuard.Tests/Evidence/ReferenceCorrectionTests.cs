using ClimateGuard.Evidence;
using ClimateGuard.Tests.Published;

namespace ClimateGuard.Tests.Evidence;

/// <summary>Lengths at 1.5 K above 20 °C; expected values by hand, L·α·ΔT in µm, and rounded as people say them.</summary>
public sealed class ReferenceCorrectionTests
{
    private static readonly InspectionTemperatures Steel = new()
    {
        PartExpansion = new(11.7, 0.35),
        Part = new(21.5, 0.1),
        Device = new(20.5, 0.1),
        DeviceExpansion = new(8.0, 0.5),
        ExpansionUsedByDevice = 12.0,
    };

    [Theory]
    [InlineData(1040, 23.8, 37)] // aluminium
    [InlineData(690, 16.0, 17)] // 316L
    [InlineData(900, 11.7, 16)] // steel
    public void A_device_that_corrects_only_itself_reports_a_warm_part_too_long(double length, double alpha, double expected)
    {
        var correction = ReferenceCorrection.For(DeviceCompensation.DeviceOnly, Warm(alpha));
        var at20 = correction.Apply(new ReportedDeviation(expected, 0), length);
        Within.Absolute(-expected, at20.CorrectionMicrometres!.Value, 0.5);
        Within.Absolute(0, at20.Micrometres!.Value, 0.5);
    }

    [Theory]
    [InlineData(DeviceCompensation.None, 13.55)] // 11.7·1.5 − 8.0·0.5
    [InlineData(DeviceCompensation.DeviceOnly, 17.55)] // 11.7·1.5
    [InlineData(DeviceCompensation.DeviceAndPartSame, 11.55)] // 11.7·1.5 − 12.0·0.5
    [InlineData(DeviceCompensation.DeviceAndPartSeparate, -0.45)] // (11.7 − 12.0)·1.5
    public void Each_mode_leaves_its_own_error_per_metre(DeviceCompensation mode, double expected) =>
        Within.Absolute(expected, ReferenceCorrection.For(mode, Steel).PerMetre!.Estimate, 1e-12);

    [Theory]
    [InlineData(DeviceCompensation.None, 1.5332)] // √((1.5·0.35)² + (11.7·0.1)² + (0.5·0.5)² + (8·0.1)²) with (0.35·0.1)² and (0.5·0.1)²
    [InlineData(DeviceCompensation.DeviceOnly, 1.2829)] // √((1.5·0.35)² + (11.7·0.1)² + (0.35·0.1)²)
    [InlineData(DeviceCompensation.DeviceAndPartSame, 1.7566)] // and (12·0.1)²
    [InlineData(DeviceCompensation.DeviceAndPartSeparate, 2.4573)] // √((1.5·0.35)² + (0.3·0.1)² + (12·0.2)² + (0.35·0.1)²)
    public void Each_mode_has_its_own_uncertainty(DeviceCompensation mode, double expected) =>
        Within.Absolute(expected, ReferenceCorrection.For(mode, Steel).PerMetre!.StandardUncertaintyWithProducts, 5e-4);

    [Fact]
    public void The_correction_stands_beside_the_value()
    {
        var at20 = ReferenceCorrection.For(DeviceCompensation.DeviceOnly, Steel).Apply(new ReportedDeviation(20, 1), 1000);
        Assert.Equal(20, at20.Reported.Micrometres);
        Within.Absolute(-17.55, at20.CorrectionMicrometres!.Value, 1e-12);
        Within.Absolute(2.45, at20.Micrometres!.Value, 1e-12);
        Within.Absolute(1.6266, at20.StandardUncertainty!.Value, 5e-4); // √(1² + 1.2829²)
        Assert.Contains("-17.6 µm over 1000 mm", at20.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_value_already_at_20_degrees_is_not_corrected_again()
    {
        var at20 = ReferenceCorrection.For(DeviceCompensation.DeviceOnly, Steel).Apply(new ReportedDeviation(20, 1, AlreadyAtReference: true), 1000);
        Assert.Equal(0, at20.CorrectionMicrometres);
        Assert.Equal(20, at20.Micrometres);
        Assert.Contains("not corrected again", at20.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void No_correction_takes_a_corrected_value()
    {
        var taken = typeof(ReferenceCorrection).GetMethods().SelectMany(method => method.GetParameters()).Select(parameter => parameter.ParameterType);
        Assert.DoesNotContain(typeof(DeviationAtReference), taken);
    }

    [Fact]
    public void An_unknown_mode_gives_an_interval_over_all_four()
    {
        var correction = ReferenceCorrection.For(DeviceCompensation.Unknown, Steel);
        Assert.False(correction.IsKnown);
        var at20 = correction.Apply(new ReportedDeviation(20, 1), 1000);
        Assert.Null(at20.Micrometres);
        Within.Absolute(20 - (17.55 + (2 * 1.2829)), at20.Range.Low, 1e-3); // DEVICE_ONLY is the largest error
        Within.Absolute(20 - (-0.45 - (2 * 2.4573)), at20.Range.High, 1e-3); // DEVICE_AND_PART_SEPARATE the smallest
        Assert.Contains("compensation mode", at20.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_temperature_is_named_and_never_guessed()
    {
        var correction = ReferenceCorrection.For(DeviceCompensation.None, Steel with { Part = null, DeviceExpansion = null });
        Assert.Equal(["the temperature of the part", "the expansion of the device's scale"], correction.Missing);
        Assert.Equal(double.NegativeInfinity, correction.Apply(new ReportedDeviation(20, 1), 1000).Range.Low);
        Assert.Throws<InvalidOperationException>(() => correction.Apply(new HoleDeviation(1, 1, 1, 1)));
    }

    [Fact]
    public void A_coordinate_on_the_other_side_of_the_datum_is_corrected_the_other_way()
    {
        var correction = ReferenceCorrection.For(DeviceCompensation.DeviceOnly, Steel);
        Within.Absolute(17.55, correction.Apply(new ReportedDeviation(0, 0), -1000).CorrectionMicrometres!.Value, 1e-12);
        var hole = correction.Apply(new HoleDeviation(1000, -500, 17.55, -8.775));
        Within.Absolute(0, hole.Dx, 1e-12);
        Within.Absolute(0, hole.Dy, 1e-12);
    }

    [Fact]
    public void A_warm_artefact_tells_which_modes_a_device_can_have()
    {
        var artefact = new InspectionTemperatures
        {
            PartExpansion = new(11.5, 0.1), Part = new(23, 0.05), Device = new(20, 0.05), DeviceExpansion = new(8, 0.5), UDevicePartSensor = 0.05,
        };
        Assert.Equal([DeviceCompensation.DeviceAndPartSeparate], DeviceModeCheck.ModesThatAgree(0.3, 0.5, 1000, artefact));
        // 34.5 µm of growth all in the reading: the device corrects neither, or itself, or takes its own 20 °C for the part.
        Assert.Equal(
            [DeviceCompensation.None, DeviceCompensation.DeviceOnly, DeviceCompensation.DeviceAndPartSame],
            DeviceModeCheck.ModesThatAgree(34.5, 0.5, 1000, artefact));
    }

    [Fact]
    public void A_temperature_beyond_reason_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(
        () => ReferenceCorrection.For(DeviceCompensation.DeviceOnly, Steel with { Part = new(294.65, 0.1) }));

    private static InspectionTemperatures Warm(double alpha) => new() { PartExpansion = new(alpha, 0), Part = new(21.5, 0) };
}
