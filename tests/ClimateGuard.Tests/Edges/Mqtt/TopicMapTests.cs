using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Mqtt;

namespace ClimateGuard.Tests.Edges.Mqtt;

public sealed class TopicMapTests
{
    [Fact]
    public void The_default_topics_and_one_of_its_own_lead_to_their_sensors()
    {
        var map = new TopicMap(MqttSome.Cell(MqttSome.Sensor("air/a1"), MqttSome.Sensor("hall", topic: "ot/hall 3/temp")), []);
        Assert.Equal(0, map.IndexOf("cg/cell4/reading/air/a1"));
        Assert.Equal(1, map.IndexOf("ot/hall 3/temp"));
        Assert.Equal(-1, map.IndexOf("cg/cell4/reading/hall"));
        Assert.Equal(["cg/cell4/reading/#", "ot/hall 3/temp"], map.Subscriptions);
    }

    [Fact]
    public void A_filter_of_the_shop_with_the_sensor_in_the_middle_or_at_the_end_is_subscribed_by_levels()
    {
        var cell = MqttSome.Cell(MqttSome.Sensor("air/a1"), MqttSome.Sensor("roof"), MqttSome.Sensor("own", topic: "plc/7/x"));
        var map = new TopicMap(cell, ["shop/{cell}/{sensor}/value", "gateway/#", "plc/+/x"]);
        Assert.Equal(0, map.IndexOf("shop/cell4/air/a1/value"));
        Assert.Equal(1, map.IndexOf("gateway/roof"));
        Assert.Equal(2, map.IndexOf("plc/7/x"));
        Assert.Equal(["shop/cell4/+/value", "shop/cell4/+/+/value", "gateway/#", "plc/+/x"], map.Subscriptions);
    }

    [Fact]
    public void A_lookup_allocates_nothing()
    {
        var map = new TopicMap(MqttSome.Cell(MqttSome.Sensor("air/a1")), []);
        map.IndexOf("cg/cell4/reading/air/a1");
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 1000; i++)
        {
            map.IndexOf("cg/cell4/reading/air/a1");
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void The_topics_of_the_contract_have_these_names()
    {
        var topics = new Topics("cell4");
        Assert.Equal(
            [
                "cg/cell4/reading/air/a1", "cg/cell4/machine/M1/job", "cg/cell4/machine/M1/permit/request",
                "cg/cell4/machine/M1/permit/answer", "cg/cell4/machine/M1/measurement", "cg/cell4/machine/M1/event/coolant",
                "cg/cell4/event/door", "cg/cell4/machine/M1/outlook", "cg/cell4/alert", "cg/cell4/finding", "cg/cell4/worker/status",
            ],
            [
                topics.Reading("air/a1"), topics.Job("M1"), topics.PermitRequest("M1"), topics.PermitAnswer("M1"), topics.Measurement("M1"),
                topics.Event("M1", EventTypes.Coolant), topics.Door, topics.Outlook("M1"), topics.Alert, topics.Finding, topics.WorkerStatus,
            ]);
    }

    [Theory]
    [InlineData("cg/cell4/machine/M1/job", "job", "M1")]
    [InlineData("cg/cell4/machine/M1/measurement", "measurement", "M1")]
    [InlineData("cg/cell4/machine/M1/permit/request", "permitRequest", "M1")]
    [InlineData("cg/cell4/machine/M1/event/cutStarted", "cutStarted", "M1")]
    [InlineData("cg/cell4/event/door", "door", null)]
    public void An_event_topic_names_type_and_machine(string topic, string type, string? machine)
    {
        Assert.True(new Topics("cell4").TryReadEvent(topic, out var address));
        Assert.Equal(new EventAddress(type, machine), address);
    }

    [Theory]
    [InlineData("cg/cell4/machine/M1/outlook")]
    [InlineData("cg/cell4/machine//job")]
    [InlineData("cg/cell4/machine/")]
    [InlineData("cg/cell5/machine/M1/job")]
    [InlineData("")]
    public void Other_topics_are_no_events(string topic) => Assert.False(new Topics("cell4").TryReadEvent(topic, out _));
}
