using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

/// <summary>What becomes of the air of a zone when one of its sensors is not right.</summary>
public sealed class VoteTests
{
    private readonly SensorHand hand = new(SmallCell.Of());
    private readonly CellState state;

    public VoteTests() => state = new CellState(hand.Cell, hand.Trust);

    [Fact]
    public void A_sensor_in_the_sun_loses_its_vote_says_why_and_gets_it_back()
    {
        Go(60, sun: 0);
        Go(120, sun: 1.5);
        Assert.Equal(20.0, Air(), 0.05);
        var lit = state.SensorsAt(hand.Now)[0];
        Assert.Equal((SensorState.Fresh, TrustReason.Outvoted), (lit.State, lit.Condition));
        Assert.Contains("above its neighbours, which agree: sun", lit.Because, StringComparison.Ordinal);

        Go(120, sun: 0);
        Assert.Equal(TrustReason.None, state.SensorsAt(hand.Now)[0].Condition);
        Assert.Equal([false, true], hand.Trust.TakeAlerts().Select(alert => alert.Alert.Cleared));
    }

    [Fact]
    public void Without_any_other_sensor_a_doubtful_one_is_still_heard()
    {
        Go(60, sun: 0);
        Go(120, sun: 1.5);
        for (var n = 0; n < 60; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            Take("air/a1", 21.5);
        }

        Assert.Equal(21.5, Air(), 0.05);
    }

    [Fact]
    public void Two_sensors_that_cross_in_value_are_not_swapped()
    {
        for (var n = 0; n < 720; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            foreach (var air in (string[])["air/a1", "air/a2", "air/a3"])
            {
                Take(air, 20 + (n / 360.0));
            }

            Take("m1/coolant", 22 - (n / 360.0));
        }

        Assert.Empty(hand.Trust.TakeAlerts());
    }

    [Fact]
    public void A_sensor_that_reports_changes_only_is_believed_until_its_heartbeat()
    {
        var battery = SensorHand.Air("a") with { ReportsOnChange = true, Heartbeat = TimeSpan.FromMinutes(30) };
        var own = SensorHand.With(battery);
        var now = new CellState(own.Cell, own.Trust);
        now.Take(own.Say("a", 20));

        Assert.NotEqual(SensorState.Invalid, now.SensorsAt(own.Now.AddMinutes(29))[0].State);
        Assert.Equal(SensorState.Invalid, now.SensorsAt(own.Now.AddMinutes(31))[0].State);
    }

    [Fact]
    public void A_sensor_that_turns_to_ten_minutes_is_not_lost_between_its_readings_and_says_so()
    {
        var own = SensorHand.With(SensorHand.Air("a"));
        var now = new CellState(own.Cell, own.Trust);
        own.Go(60, ("a", _ => 20));
        for (var n = 0; n < 4; n++)
        {
            own.Now += TimeSpan.FromMinutes(10);
            now.Take(own.Say("a", own.Near("a", 20)));
        }

        var later = now.SensorsAt(own.Now.AddMinutes(9))[0];
        Assert.Equal(SensorState.Fresh, later.State);
        Assert.Contains("reports every 10 min instead of every 10 s", later.Because, StringComparison.Ordinal);
    }

    private double Air() => state.ClimateOf("M1", hand.Now).AirCelsius;

    private void Go(int times, double sun)
    {
        for (var n = 0; n < times; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            Take("air/a1", 20 + (sun * Math.Min(1, n / 20.0)));
            Take("air/a2", 20);
            Take("air/a3", 20);
        }
    }

    private void Take(string sensor, double value) => state.Take(hand.Say(sensor, hand.Near(sensor, value)));
}
