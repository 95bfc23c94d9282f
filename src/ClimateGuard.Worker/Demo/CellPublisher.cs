using System.Globalization;
using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using MQTTnet;
using MQTTnet.Protocol;

namespace ClimateGuard.Worker.Demo;

/// <summary>Publishes what the virtual cell says over MQTT, at the pace of the demo's clock, as a real cell would.</summary>
internal sealed class CellPublisher(VirtualCell virtualCell, DemoDesk desk, FastClock clock, int brokerPort) : BackgroundService
{
    private static readonly TimeSpan RealPace = TimeSpan.FromMilliseconds(100);

    private readonly Topics topics = new(virtualCell.Description.Id);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await desk.Begun.WaitAsync(stoppingToken);
        using var client = new MqttClientFactory().CreateMqttClient();
        var options = new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", brokerPort).WithClientId("virtual-cell").Build();
        await client.ConnectAsync(options, stoppingToken);
        using var pace = new PeriodicTimer(RealPace);
        while (await pace.WaitForNextTickAsync(stoppingToken))
        {
            desk.DoWishes();
            await desk.KeepResultsAsync(stoppingToken);
            foreach (var signal in virtualCell.Advance(clock.GetUtcNow() - virtualCell.Now))
            {
                await client.PublishAsync(Message(signal), stoppingToken);
            }
        }
    }

    private MqttApplicationMessage Message(CellSignal signal)
    {
        var (topic, payload) = signal.Event is { } happened ? (TopicOf(happened), EventJson.ToUtf8(happened)) : Reading(signal.Reading);
        return new MqttApplicationMessageBuilder()
            .WithTopic(topic)
            .WithPayload(payload)
            .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
            .Build();
    }

    private (string Topic, byte[] Payload) Reading(Reading reading)
    {
        var sensor = virtualCell.Description.Sensors[reading.Sensor];
        var text = string.Create(
            CultureInfo.InvariantCulture, $"{{\"t\":{reading.EpochMilliseconds},\"v\":{reading.Value:0.####},\"u\":\"{SensorUnits.ByQuantity[sensor.Quantity][0]}\"}}");
        return (sensor.Topic ?? topics.Reading(sensor.Id), Encoding.UTF8.GetBytes(text));
    }

    private string TopicOf(CellEvent happened) => happened switch
    {
        JobLoaded job => topics.Job(job.Machine),
        Measured measured => topics.Measurement(measured.Machine),
        PermitRequested request => topics.PermitRequest(request.Machine),
        MachineEvent other => topics.Event(other.Machine, EventJson.TypeOf(other)),
        _ => topics.Door,
    };
}
