using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Scoreboard;

/// <summary>The plain air limits on the same history.</summary>
public sealed class AirLimitTests
{
    private static readonly Cell Cell = SmallCell.Of();

    // 30 min at +0.7 K from minute 10, 5 min at +1.2 K from minute 60, else on the set point.
    [Fact]
    public void Each_limit_counts_how_often_and_how_long_it_was_in_alarm_and_which_holds_it_saw()
    {
        var comparison = new AirLimitComparison(Cell, Told.At(0), [1.0, 0.5]);
        for (var second = -60; second < 120 * 60; second += 10)
        {
            var minute = second / 60.0;
            var air = minute is >= 10 and < 40 ? 20.7 : minute is >= 60 and < 65 ? 21.2 : 20.0;
            foreach (var sensor in new[] { 0, 1, 2 })
            {
                comparison.Take(new TrustedReading(new Reading(sensor, Told.At(minute).ToUnixTimeMilliseconds(), air), air, Trust.Accepted, default));
            }
        }

        comparison.Until(Told.At(120));
        var told = new Told(Cell)
            .Outlook(20, "A", "hold").Measured(25, "A", 20).Outlook(26, "A", "ready")
            .Outlook(90, "B", "hold").Measured(95, "B", 20).Outlook(96, "B", "ready")
            .Outlook(62, "C", "hold").Measured(63, "C", 1).Outlook(64, "C", "ready");

        Assert.Equal(
            [new AirLimitScore(1.0, 1, 5, 120, 0, 1), new AirLimitScore(0.5, 2, 35, 120, 1, 1)],
            comparison.Scores(told.History.Holds));
    }

    [Fact]
    public void Air_that_is_not_known_is_not_counted_as_within_the_limit()
    {
        var comparison = new AirLimitComparison(Cell, Told.At(0), [1.0]);
        comparison.Until(Told.At(30));

        Assert.Equal(0, comparison.Scores([])[0].MinutesKnown);
    }
}
