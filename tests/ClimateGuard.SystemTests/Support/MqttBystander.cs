using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;
using MQTTnet;
using MQTTnet.Protocol;

namespace ClimateGuard.SystemTests.Support;

/// <summary>A plain MQTT client beside the worker: it sends like a sensor and sees what a machine would see.</summary>
public sealed class MqttBystander : IAsyncDisposable
{
    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly ConcurrentQueue<(string Topic, string Payload, bool Retained)> seen = new();

    public IReadOnlyCollection<(string Topic, string Payload, bool Retained)> Seen => seen;

    public static async Task<MqttBystander> ConnectAsync(int port, string? subscription = null, Action<MqttClientOptionsBuilder>? more = null)
    {
        var bystander = new MqttBystander();
        bystander.client.ApplicationMessageReceivedAsync += message =>
        {
            var received = message.ApplicationMessage;
            bystander.seen.Enqueue((received.Topic, Encoding.UTF8.GetString(received.Payload), received.Retain));
            return Task.CompletedTask;
        };
        var options = new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port)
            .WithProtocolVersion(MQTTnet.Formatter.MqttProtocolVersion.V500);
        more?.Invoke(options);
        await bystander.client.ConnectAsync(options.Build());
        if (subscription is not null)
        {
            await bystander.client.SubscribeAsync(subscription, MqttQualityOfServiceLevel.AtLeastOnce);
        }

        return bystander;
    }

    public Task SendAsync(string topic, string payload, bool retain = false, int qos = 1) =>
        SendAsync(topic, Encoding.UTF8.GetBytes(payload), retain, qos);

    public Task SendAsync(string topic, byte[] payload, bool retain = false, int qos = 1) => client.PublishAsync(
        new MqttApplicationMessage
        {
            Topic = topic,
            PayloadSegment = payload,
            Retain = retain,
            QualityOfServiceLevel = (MqttQualityOfServiceLevel)qos,
        });

    public async Task<(string Topic, string Payload, bool Retained)> WaitForAsync(
        Func<(string Topic, string Payload, bool Retained), bool> wanted, string what)
    {
        var patience = Stopwatch.StartNew();
        while (true)
        {
            foreach (var message in seen)
            {
                if (wanted(message))
                {
                    return message;
                }
            }

            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(15), $"never seen: {what}; seen: {string.Join("; ", seen)}");
            await Task.Delay(10);
        }
    }

    public void Forget() => seen.Clear();

    public async ValueTask DisposeAsync()
    {
        await client.DisconnectAsync();
        client.Dispose();
    }
}
