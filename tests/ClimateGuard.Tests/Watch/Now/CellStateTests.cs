using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Now;

public sealed class CellStateTests
{
    private readonly CellState state = new(SmallCell.Of());
    private readonly Cell cell = SmallCell.Of();

    [Fact]
    public void Local_air_is_the_mean_of_the_zone_at_working_height()
    {
        Say("air/a1", 20.0);
        Say("air/a2", 20.2);
        Say("air/a3", 20.4);
        Say("air/high", 23.0);

        Assert.Equal(20.2, Climate().AirCelsius, 1e-9);
    }

    [Fact]
    public void One_sensor_that_departs_from_two_others_is_outvoted()
    {
        Say("air/a1", 20.0);
        Say("air/a2", 20.2);
        Say("air/a3", 22.5);

        Assert.Equal(20.1, Climate().AirCelsius, 1e-9);
    }

    [Fact]
    public void One_lost_sensor_of_three_changes_nothing()
    {
        Say("air/a1", 20.0);
        Say("air/a2", 20.0, TimeSpan.FromMinutes(-20));

        Assert.Equal(20.0, Climate().AirCelsius, 1e-9);
        Assert.Null(Climate().AirMissingBecause);
    }

    [Fact]
    public void With_all_of_them_lost_the_air_is_not_known_and_each_is_named()
    {
        Say("air/a1", 20.0, TimeSpan.FromMinutes(-7));

        Assert.True(double.IsNaN(Climate().AirCelsius));
        Assert.Contains("air/a1 is silent for 7 min", Climate().AirMissingBecause, StringComparison.Ordinal);
        Assert.Contains("air/a2 has sent nothing yet", Climate().AirMissingBecause, StringComparison.Ordinal);
    }

    [Fact]
    public void A_late_reading_is_history_and_does_not_turn_back_the_present()
    {
        Say("air/a1", 20.0);
        Say("air/a1", 25.0, TimeSpan.FromMinutes(-1));

        Assert.Equal(20.0, Climate().AirCelsius, 1e-9);
    }

    [Fact]
    public void A_sensor_set_aside_says_why()
    {
        state.Take(new TrustedReading(Reading("air/a1", 850, default), 850, Trust.Quarantined, TrustReason.Sentinel));

        var sensor = state.SensorsAt(Some.Morning)[0];
        Assert.Equal(SensorState.Quarantined, sensor.State);
        Assert.Contains("open or shorted", sensor.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void Coolant_is_believed_for_three_minutes_at_most_and_a_slow_sensor_for_two_and_a_half_periods()
    {
        Say("m1/coolant", 21.0);

        Assert.Equal(21.0, state.ClimateOf("M1", Some.Morning.AddSeconds(95)).CoolantCelsius);
        Assert.True(double.IsNaN(state.ClimateOf("M1", Some.Morning.AddSeconds(110)).CoolantCelsius));
    }

    private LocalClimate Climate() => state.ClimateOf("M1", Some.Morning);

    private void Say(string sensor, double value, TimeSpan later = default) =>
        state.Take(new TrustedReading(Reading(sensor, value, later), value, Trust.Accepted, TrustReason.None));

    private Reading Reading(string sensor, double value, TimeSpan later) =>
        new(cell.IndexOfSensor(sensor), (Some.Morning + later).ToUnixTimeMilliseconds(), value);
}
