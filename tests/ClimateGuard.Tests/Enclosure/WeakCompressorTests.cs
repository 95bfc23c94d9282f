using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>A direct-expansion coil that lost refrigerant pulls less at any weather; one with a dirty condenser the less the hotter it is outdoors.</summary>
public sealed class WeakCompressorTests
{
    private const double PullKelvins = 7;

    [Theory]
    [InlineData(6)]
    [InlineData(40)]
    public void A_dirty_condenser_is_told_by_the_loss_that_grows_outdoors_also_where_the_compressor_starts_often(int runMinutes)
    {
        var first = Week(outdoor => 1 - (0.5 * (outdoor - 15) / 25), runMinutes).Findings()[0];

        Assert.Equal("F11", first.Assessment.Cause.Id);
        Assert.True(first.Flagged);
    }

    [Theory]
    [InlineData(6)]
    [InlineData(40)]
    public void Lost_refrigerant_is_told_by_a_loss_that_does_not_care_for_the_weather(int runMinutes)
    {
        var first = Week(_ => 0.6, runMinutes).Findings()[0];

        Assert.Equal("F10", first.Assessment.Cause.Id);
        Assert.True(first.Flagged);
    }

    [Theory]
    [InlineData(6)]
    [InlineData(40)]
    public void A_sound_coil_is_no_finding(int runMinutes) => Assert.DoesNotContain(Week(_ => 1, runMinutes).Findings(), finding => finding.Flagged);

    private static DrawnUnit Week(Func<double, double> share, int runMinutes)
    {
        var unit = new DrawnUnit(CoolingMedium.DirectExpansion);
        for (var day = 0; day < 4; day++) unit.Day(Course(_ => 1, runMinutes));
        return unit.Day(Course(share, runMinutes));
    }

    // On and off by turns; the supply air follows with a lag of four minutes and is 0.5 K warmer than the room when the coil is warm.
    private static Func<int, (double, double, double, double)> Course(Func<double, double> share, int runMinutes)
    {
        var pull = new double[1440];
        for (var minute = 1; minute < pull.Length; minute++)
        {
            var aim = Runs(minute, runMinutes) ? (PullKelvins * share(Outdoor(minute))) + 0.5 : 0;
            pull[minute] = pull[minute - 1] + ((aim - pull[minute - 1]) / 4);
        }

        return minute => (20, 20.5 - pull[minute], Outdoor(minute), Runs(minute, runMinutes) ? 1 : 0);
    }

    private static bool Runs(int minute, int runMinutes) => minute % (2 * runMinutes) < runMinutes;

    private static double Outdoor(int minute) => 25 + (8 * Math.Sin(2 * Math.PI * (minute - 540) / 1440));
}
