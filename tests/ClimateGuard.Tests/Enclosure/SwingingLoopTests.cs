using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Tests.Enclosure;

/// <summary>A loop swings because it is tuned too sharply, or because its valve sticks; only the second leaves moves of the command unanswered.</summary>
public sealed class SwingingLoopTests
{
    private const double PullKelvins = 8;
    private const int DelayMinutes = 6;

    [Theory]
    [InlineData(16)]
    [InlineData(30)]
    [InlineData(45)]
    public void A_free_valve_that_answers_late_is_no_sticking_valve_however_fast_the_loop_swings(int periodMinutes)
    {
        var first = Week(minute => 0.5 + (0.12 * Wave(minute, periodMinutes)), sticking: 0, periodMinutes).Findings()[0];

        Assert.Equal("F01", first.Assessment.Cause.Id);
        Assert.True(first.Flagged);
    }

    [Theory]
    [InlineData(36)]
    [InlineData(50)]
    public void A_valve_that_waits_for_the_command_and_then_jumps_is_the_cause_of_its_swing(int periodMinutes)
    {
        var found = Week(minute => 0.5 + (0.12 * Wave(minute, periodMinutes)), sticking: 0.15, periodMinutes).Findings();

        Assert.Equal("F03", found[0].Assessment.Cause.Id);
        Assert.True(found[0].Flagged, string.Join("; ", found[0].Assessment.Evidence.Select(e => $"{e.LogLikelihoodRatio} {e.Text}")));
        Assert.False(found.Single(finding => finding.Assessment.Cause.Id == "F01").Flagged);
    }

    // Four quiet days that show how far the supply air follows the valve, then one that swings.
    private static DrawnUnit Week(Func<int, double> command, double sticking, int periodMinutes)
    {
        var unit = new DrawnUnit(CoolingMedium.ChilledWater);
        for (var day = 0; day < 4; day++) unit.Day(Course(minute => 0.5 + (0.3 * Wave(minute, 720)), 0, 0.0, 720));
        return unit.Day(Course(command, sticking, 0.4, periodMinutes));
    }

    private static Func<int, (double, double, double, double)> Course(Func<int, double> command, double sticking, double roomKelvins, int periodMinutes)
    {
        var stem = new double[1440 + DelayMinutes];
        for (var minute = 0; minute < stem.Length; minute++)
        {
            var asked = command(minute - DelayMinutes);
            var rests = minute > 0 ? stem[minute - 1] : asked;
            stem[minute] = Math.Abs(asked - rests) >= sticking ? asked : rests;
        }

        return minute => (20 + (roomKelvins * Wave(minute + (periodMinutes / 4), periodMinutes)), 20 - (PullKelvins * stem[minute]), 12, command(minute));
    }

    private static double Wave(int minute, int periodMinutes) => Math.Sin(2 * Math.PI * minute / periodMinutes);
}
