using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Sensors;

public sealed class SensorTrustTests
{
    private readonly SensorTrust trust = new(SmallCell.Of());

    [Fact]
    public void A_plausible_reading_of_now_is_accepted() =>
        Assert.Equal((Trust.Accepted, TrustReason.None), Judge(20.1));

    [Theory]
    [InlineData(-242)]
    [InlineData(-127)]
    [InlineData(85)]
    [InlineData(850)]
    [InlineData(999.9)]
    public void What_devices_send_for_a_broken_sensor_is_set_aside_as_such(double value) =>
        Assert.Equal((Trust.Quarantined, TrustReason.Sentinel), Judge(value));

    [Theory]
    [InlineData(110, TrustReason.OutOfRange)]
    [InlineData(0, TrustReason.Sentinel)]
    [InlineData(68, TrustReason.UnitMixUp)]
    [InlineData(293.15, TrustReason.UnitMixUp)]
    [InlineData(204, TrustReason.UnitMixUp)]
    public void A_value_no_enclosure_has_is_set_aside_with_what_it_looks_like(double value, TrustReason reason) =>
        Assert.Equal((Trust.Quarantined, reason), Judge(value));

    [Fact]
    public void A_reading_from_the_future_is_set_aside_beyond_five_seconds()
    {
        Assert.Equal((Trust.Accepted, TrustReason.None), Judge(20, TimeSpan.FromSeconds(4)));
        Assert.Equal((Trust.Quarantined, TrustReason.FromTheFuture), Judge(20, TimeSpan.FromSeconds(6)));
    }

    [Fact]
    public void A_value_the_broker_kept_is_never_live() =>
        Assert.Equal((Trust.Quarantined, TrustReason.Retained), Judge(20, retained: true));

    [Fact]
    public void A_calibration_is_taken_off_from_its_day_on()
    {
        var calibrated = Calibrated();

        var before = calibrated.Judge(Arrival(20.0, Some.Morning.AddDays(-2)));
        var after = calibrated.Judge(Arrival(20.0, Some.Morning));

        Assert.Equal((20.0, Trust.Accepted), (before.Value, before.Trust));
        Assert.Equal((19.7, Trust.Corrected), (after.Value, after.Trust));
        Assert.Equal(20.0, after.Raw.Value);
    }

    private static SensorTrust Calibrated()
    {
        var cell = SmallCell.Of().Description;
        var sensor = cell.Sensors[0] with { Calibrations = [new Calibration(Some.Morning.AddDays(-1), 0.3, 0.03, "SN 1")] };
        return new SensorTrust(new Cell(cell with { Sensors = [sensor, .. cell.Sensors.Skip(1)] }));
    }

    private static Arrival Arrival(double value, DateTimeOffset time, bool retained = false) => new()
    {
        Reading = new Reading(0, time.ToUnixTimeMilliseconds(), value), ArrivedAt = Some.Morning, Retained = retained,
    };

    private (Trust Trust, TrustReason Reason) Judge(double value, TimeSpan ahead = default, bool retained = false)
    {
        var judged = trust.Judge(Arrival(value, Some.Morning + ahead, retained));
        return (judged.Trust, judged.Reason);
    }
}
