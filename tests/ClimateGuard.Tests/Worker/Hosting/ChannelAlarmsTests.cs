using ClimateGuard.Edges.Notices;
using ClimateGuard.Worker.Hosting;

namespace ClimateGuard.Tests.Worker.Hosting;

public sealed class ChannelAlarmsTests
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);

    private readonly ChannelAlarms alarms = new();

    [Fact]
    public void A_channel_that_fails_for_five_minutes_is_an_alarm_once_and_its_recovery_ends_it()
    {
        Assert.Null(Step(Now, 0));
        Assert.Null(Step(Now, 299));
        var raised = Step(Now, 300)!.Alert;
        Assert.Equal(("channel/mail", false), (raised.Id, raised.Cleared));
        Assert.Equal("Messages by mail have not got through for 5 min; 3 wait. no route", raised.Text);
        Assert.Equal("Mend mail, then run climateguard notify test --channel mail.", raised.Action);
        Assert.Null(Step(Now, 600));

        var cleared = Step(null, 700)!.Alert;
        Assert.Equal(("channel/mail", true), (cleared.Id, cleared.Cleared));
        Assert.Null(Step(null, 800));
    }

    [Fact]
    public void A_short_failure_is_no_alarm()
    {
        Assert.Null(Step(Now, 100));
        Assert.Null(Step(null, 200));
        Assert.Null(Step(Now.AddSeconds(210), 310));
    }

    private ClimateGuard.Watch.AlertRaised? Step(DateTimeOffset? since, double seconds) =>
        alarms.Step(new ChannelHealth("mail", 0, 3, null, 0, since, "no route", 0), Now.AddSeconds(seconds), Now.AddSeconds(seconds));
}
