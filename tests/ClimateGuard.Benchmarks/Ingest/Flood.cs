using System.Buffers.Text;
using System.Diagnostics;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.Benchmarks.Ingest;

/// <summary>A publisher that keeps many publishes in flight, and waits when too much is not counted yet, so that no backlog grows.</summary>
internal sealed class Flood(int brokerPort, int sensors, int qos) : IDisposable
{
    private const int InFlight = 256;
    private const int MostAhead = 40_000;

    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly long firstTime = DateTimeOffset.UtcNow.AddMinutes(-30).ToUnixTimeMilliseconds();
    private readonly string[] topics = [.. Enumerable.Range(0, sensors).Select(sensor => $"cg/big/reading/s{sensor}")];
    private long next = -1;
    private long counted;

    public long Sent => Interlocked.Read(ref next) + 1;

    /// <summary>What the subscriber has counted so far.</summary>
    public void Heard(long count) => Interlocked.Exchange(ref counted, count);

    public async Task RunAsync(CancellationToken ending)
    {
        await client.ConnectAsync(
            new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", brokerPort).WithProtocolVersion(MqttProtocolVersion.V500).WithClientId("flood").Build(), ending);
        var lanes = qos == 0 ? 1 : InFlight;
        await Task.WhenAll(Enumerable.Range(0, lanes).Select(_ => Task.Run(() => LaneAsync(ending), CancellationToken.None)));
    }

    public void Dispose() => client.Dispose();

    private async Task LaneAsync(CancellationToken ending)
    {
        while (!ending.IsCancellationRequested)
        {
            var number = Interlocked.Increment(ref next);
            while (number - Interlocked.Read(ref counted) > MostAhead && !ending.IsCancellationRequested)
            {
                await Task.Delay(1, CancellationToken.None);
            }

            // What was numbered is sent, also at the end: so the number sent is the number to be found.
            await client.PublishAsync(
                new MqttApplicationMessage
                {
                    Topic = topics[number % sensors],
                    PayloadSegment = Payload(firstTime + (number / sensors * 10), (int)(number % 977)),
                    QualityOfServiceLevel = (MqttQualityOfServiceLevel)qos,
                },
                CancellationToken.None);
        }
    }

    private static byte[] Payload(long time, int tail)
    {
        var payload = "{\"t\":0000000000000,\"v\":20.000,\"u\":\"C\"}"u8.ToArray();
        Trace.Assert(Utf8Formatter.TryFormat(time, payload.AsSpan(5), out _));
        Trace.Assert(Utf8Formatter.TryFormat(tail, payload.AsSpan(26), out _, new System.Buffers.StandardFormat('D', 3)));
        return payload;
    }
}
