using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Machines;

public sealed class LevelTimingTests
{
    private DateTimeOffset now = Some.Morning;
    private LevelTiming timing = LevelTiming.Begin with { Shown = Level.Ready, Since = Some.Morning };

    [Fact]
    public void By_the_clock_measure_first_shows_after_a_minute_and_hold_after_two()
    {
        Assert.Equal(Level.Ready, After(0, Level.Hold));
        Assert.Equal(Level.Ready, After(59, Level.Hold));
        Assert.Equal(Level.MeasureFirst, After(1, Level.Hold));
        Assert.Equal(Level.MeasureFirst, After(59, Level.Hold));
        Assert.Equal(Level.Hold, After(1, Level.Hold));
    }

    [Fact]
    public void A_gust_of_fifty_seconds_shows_nothing()
    {
        After(0, Level.Hold);
        After(50, Level.Hold);

        Assert.Equal(Level.Ready, After(1, Level.Ready));
        Assert.Equal(Level.Ready, After(50, Level.Hold));
    }

    [Fact]
    public void A_request_counts_at_once() =>
        Assert.Equal(Level.Hold, After(0, Level.Hold, cause: TimingCause.Asked));

    [Fact]
    public void A_hold_stands_five_minutes_even_when_it_could_end()
    {
        After(0, Level.Hold, cause: TimingCause.Asked);

        Assert.Equal(Level.Hold, After(299, Level.Ready, releaseHold: true));
        Assert.Equal(Level.Ready, After(1, Level.Ready, releaseHold: true));
    }

    [Fact]
    public void A_hold_does_not_end_before_its_release_conditions_are_met()
    {
        After(0, Level.Hold, cause: TimingCause.Asked);

        Assert.Equal(Level.Hold, After(3600, Level.Watch, releaseHold: false));
    }

    [Fact]
    public void A_measurement_ends_a_hold_at_once()
    {
        After(0, Level.Hold, cause: TimingCause.Asked);

        Assert.Equal(Level.Ready, After(1, Level.Ready, releaseHold: false, cause: TimingCause.Measured));
    }

    [Fact]
    public void Measure_first_ends_only_below_its_own_limit()
    {
        After(0, Level.MeasureFirst, cause: TimingCause.Asked);

        Assert.Equal(Level.MeasureFirst, After(600, Level.Watch, releaseMeasure: false));
        Assert.Equal(Level.Watch, After(1, Level.Watch, releaseMeasure: true));
    }

    [Fact]
    public void Not_known_shows_at_once_and_ends_at_once()
    {
        Assert.Equal(Level.NotKnown, After(0, Level.NotKnown));
        Assert.Equal(Level.Hold, After(1, Level.Hold));
    }

    private Level After(double seconds, Level computed, bool releaseHold = true, bool releaseMeasure = true, TimingCause cause = TimingCause.Tick)
    {
        now += TimeSpan.FromSeconds(seconds);
        timing = timing.Next(computed, releaseHold, releaseMeasure, now, cause);
        return timing.Shown;
    }
}
