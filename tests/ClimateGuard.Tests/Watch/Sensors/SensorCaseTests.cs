using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

/// <summary>The failure cases of the data, one by one, each with the verdict it must get on a single reading.</summary>
public sealed class SensorCaseTests
{
    private readonly SensorHand hand = SensorHand.With(SensorHand.Air("a"));

    [Fact]
    public void Late_readings_are_history_and_counted()
    {
        hand.Go(20, ("a", _ => 20));
        var late = hand.Say("a", 20.4, TimeSpan.FromSeconds(-65));

        Assert.Equal(Trust.Accepted, late.Trust);
        Assert.Equal(1, hand.Trust.CountsOf(0).Late);
    }

    [Fact]
    public void Twenty_two_minutes_that_come_in_one_burst_are_accepted_in_their_own_time_and_raise_nothing()
    {
        hand.Go(60, ("a", _ => 20));
        var begin = hand.Now;
        hand.Now += TimeSpan.FromMinutes(22);
        for (var n = 1; n <= 132; n++)
        {
            var judged = hand.Say("a", hand.Near("a", 20 + (n / 132.0)), begin.AddSeconds(10 * n) - hand.Now);
            Assert.Equal((Trust.Accepted, begin.AddSeconds(10 * n)), (judged.Trust, judged.Time));
        }

        hand.Go(60, ("a", _ => 21));
        Assert.Empty(hand.Trust.TakeAlerts());
    }

    [Fact]
    public void A_reading_that_comes_twice_is_a_duplicate_the_second_time()
    {
        hand.Go(20, ("a", _ => 20));
        hand.Now += TimeSpan.FromSeconds(10);

        Assert.Equal(Trust.Accepted, hand.Say("a", 20.01).Trust);
        Assert.Equal((Trust.Quarantined, TrustReason.Duplicate), Verdict(hand.Say("a", 20.01)));
        Assert.Equal((Trust.Quarantined, TrustReason.Duplicate), Verdict(hand.Say("a", 20.02)));
        Assert.Equal(2, hand.Trust.CountsOf(0).Duplicates);
    }

    [Fact]
    public void A_clock_seven_minutes_ahead_is_set_aside_four_times_and_then_corrected_with_its_raw_stamp_kept()
    {
        var ahead = TimeSpan.FromMinutes(7);
        hand.Go(20, ("a", _ => 20));
        for (var n = 0; n < 4; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            Assert.Equal((Trust.Quarantined, TrustReason.FromTheFuture), Verdict(hand.Say("a", hand.Near("a", 20), ahead)));
        }

        hand.Now += TimeSpan.FromSeconds(10);
        var corrected = hand.Say("a", 20, ahead);
        Assert.Equal((Trust.Corrected, TrustReason.ClockOffset), Verdict(corrected));
        Assert.Equal((hand.Now, hand.Now + ahead), (corrected.Time, corrected.Raw.Time));

        hand.Now += TimeSpan.FromSeconds(10);
        var slow = hand.Say("a", 20.01, ahead - TimeSpan.FromSeconds(1));
        Assert.Equal(hand.Now - TimeSpan.FromSeconds(1), slow.Time);
    }

    [Fact]
    public void A_clock_that_is_put_right_is_used_as_it_is_after_five_readings()
    {
        for (var n = 0; n < 6; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            hand.Say("a", hand.Near("a", 20), TimeSpan.FromMinutes(7));
        }

        for (var n = 0; n < 5; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            var judged = hand.Say("a", hand.Near("a", 20));
            Assert.Equal(n < 4 ? (Trust.Quarantined, TrustReason.ClockOffset) : (Trust.Accepted, TrustReason.None), Verdict(judged));
        }
    }

    [Fact]
    public void A_clock_that_wanders_is_never_corrected()
    {
        for (var n = 0; n < 30; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            Assert.Equal((Trust.Quarantined, TrustReason.FromTheFuture), Verdict(hand.Say("a", 20, TimeSpan.FromSeconds(60 + (5 * n)))));
        }
    }

    [Theory]
    [InlineData(366, TrustReason.FromTheFuture)]
    [InlineData(-366, TrustReason.StampTooOld)]
    [InlineData(-20514, TrustReason.StampTooOld)]
    public void A_wrong_year_is_never_accepted_however_often_it_comes(int days, TrustReason reason)
    {
        for (var n = 0; n < 20; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            Assert.Equal((Trust.Quarantined, reason), Verdict(hand.Say("a", 20, TimeSpan.FromDays(days))));
        }

        hand.Now += TimeSpan.FromMinutes(1);
        hand.Say("a", 20, TimeSpan.FromDays(days));
        Assert.Contains(reason, hand.Conditions("a"));
    }

    [Fact]
    public void One_spike_is_set_aside_and_the_reading_after_it_is_used()
    {
        hand.Go(20, ("a", _ => 20));
        hand.Now += TimeSpan.FromSeconds(10);
        Assert.Equal((Trust.Quarantined, TrustReason.Spike), Verdict(hand.Say("a", 25)));
        hand.Now += TimeSpan.FromSeconds(10);
        Assert.Equal(Trust.Accepted, hand.Say("a", 20.01).Trust);
    }

    [Fact]
    public void A_real_step_is_believed_at_its_third_reading()
    {
        hand.Go(20, ("a", _ => 20));
        List<Trust> verdicts = [];
        for (var n = 0; n < 4; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            verdicts.Add(hand.Say("a", hand.Near("a", 26)).Trust);
        }

        Assert.Equal([Trust.Quarantined, Trust.Quarantined, Trust.Accepted, Trust.Accepted], verdicts);
    }

    [Fact]
    public void The_first_move_of_a_flat_sensor_is_no_spike()
    {
        for (var n = 0; n < 20; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            hand.Say("a", 20);
        }

        hand.Now += TimeSpan.FromSeconds(10);
        Assert.Equal(Trust.Accepted, hand.Say("a", 20.5).Trust);
    }

    [Theory]
    [InlineData(SensorDevice.Ds18b20, 85, TrustReason.Sentinel)]
    [InlineData(SensorDevice.Ds18b20, -127, TrustReason.Sentinel)]
    [InlineData(SensorDevice.Generic, 85, TrustReason.None)]
    [InlineData(SensorDevice.Pt100, 85, TrustReason.None)]
    [InlineData(SensorDevice.Pt100, -242, TrustReason.Sentinel)]
    [InlineData(SensorDevice.Pt100, 850, TrustReason.Sentinel)]
    [InlineData(SensorDevice.Thermocouple, 1372, TrustReason.Sentinel)]
    [InlineData(SensorDevice.Generic, 999.9, TrustReason.Sentinel)]
    [InlineData(SensorDevice.Generic, 0, TrustReason.None)]
    [InlineData(SensorDevice.CurrentLoop, -1.25, TrustReason.Sentinel)]
    [InlineData(SensorDevice.CurrentLoop, -0.9, TrustReason.None)]
    [InlineData(SensorDevice.CurrentLoop, 53.2, TrustReason.Sentinel)]
    public void What_stands_for_a_broken_sensor_depends_on_the_device(SensorDevice device, double value, TrustReason reason)
    {
        var wide = SensorHand.With(SensorHand.Air("a") with
        {
            Device = device, PlausibleLow = -50, PlausibleHigh = 125, LoopRange = device == SensorDevice.CurrentLoop ? (0, 50) : null,
        });

        Assert.Equal(reason, wide.Say("a", value).Reason);
    }

    [Fact]
    public void A_one_wire_sensor_that_comes_by_85_degrees_is_believed()
    {
        var oven = SensorHand.With(SensorHand.Air("a") with { Device = SensorDevice.Ds18b20, PlausibleLow = -50, PlausibleHigh = 125 });
        oven.Say("a", 84.5);
        oven.Now += TimeSpan.FromSeconds(10);

        Assert.Equal(Trust.Accepted, oven.Say("a", 85).Trust);
    }

    [Fact]
    public void Fahrenheit_in_a_plausible_range_is_refused_by_its_own_history_and_says_what_it_looks_like()
    {
        var outdoor = SensorHand.With(SensorHand.Air("a") with { Place = SensorPlace.Outdoor, PlausibleLow = -40, PlausibleHigh = 60 });
        outdoor.Go(20, ("a", _ => 10));
        for (var n = 0; n < 10; n++)
        {
            outdoor.Now += TimeSpan.FromSeconds(10);
            Assert.Equal((Trust.Quarantined, TrustReason.UnitMixUp), Verdict(outdoor.Say("a", outdoor.Near("a", 50 + (n * 0.1)))));
        }

        var alert = Assert.Single(outdoor.Trust.TakeAlerts());
        Assert.Contains("reads like °F", alert.Alert.Text, StringComparison.Ordinal);
        Assert.Contains("nothing is converted", alert.Alert.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_unit_is_said_with_the_value_it_would_be()
    {
        for (var n = 0; n < 8; n++)
        {
            hand.Now += TimeSpan.FromSeconds(10);
            hand.Say("a", 68);
        }

        Assert.Contains("reads like °F: 68.0 would be 20.0 °C", hand.Trust.ConditionsOf(0)[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_calibration_gives_its_uncertainty_and_a_new_instance_counts_as_less_certain_for_half_an_hour()
    {
        var history = new CalibrationHistory(SensorHand.Air("a") with
        {
            Calibrations = [new(hand.Now, 0.2, 0.03, "SN 1"), new(hand.Now.AddDays(1), -0.1, 0.04, "SN 2")],
        });
        long At(double days) => hand.Now.AddDays(days).ToUnixTimeMilliseconds();

        Assert.Equal((0.0, 0.05), (history.OffsetAt(At(-1)), history.UncertaintyAt(At(-1))));
        Assert.Equal(0.2, history.OffsetAt(At(0.5)));
        Assert.Equal(Math.Sqrt(0.0025 + 0.0009), history.UncertaintyAt(At(0.5)), 1e-12);
        Assert.Equal(Math.Sqrt(0.0025 + 0.0016 + 0.0009), history.UncertaintyAt(At(1.01)), 1e-12);
        Assert.Equal(Math.Sqrt(0.0025 + 0.0016), history.UncertaintyAt(At(1.1)), 1e-12);
        Assert.Equal(("SN 1", "SN 2"), (history.At(At(0.5))!.Instance, history.At(At(1.5))!.Instance));
    }

    private static (Trust Trust, TrustReason Reason) Verdict(TrustedReading judged) => (judged.Trust, judged.Reason);
}
