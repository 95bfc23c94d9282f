using System.Diagnostics;
using System.Globalization;
using System.Text;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.Benchmarks.BigCell;

/// <summary>Sensors that send once a second each, evenly spread over the second, QoS 1, with the time of the measurement.</summary>
internal sealed class SteadySensors(int brokerPort, int sensors) : IDisposable
{
    private static readonly TimeSpan Slice = TimeSpan.FromMilliseconds(20);

    private const int MostAtOnce = 2000;

    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly Random random = new(1);
    private readonly string[] topics = [.. Enumerable.Range(0, sensors).Select(sensor => $"cg/big/reading/s{sensor}")];
    private readonly DateTimeOffset began = DateTimeOffset.UtcNow;

    public long Sent { get; private set; }

    public async Task ConnectAsync()
    {
        client.DisconnectedAsync += how =>
        {
            Console.Error.WriteLine($"The sensors lost the broker: {how.Reason} {how.ReasonString} {how.Exception}");
            return Task.CompletedTask;
        };
        await client.ConnectAsync(new MqttClientOptionsBuilder()
            .WithTcpServer("127.0.0.1", brokerPort).WithProtocolVersion(MqttProtocolVersion.V500).WithClientId("sensors").Build());
    }

    public Task LoadAsync(int machine) => SendAsync(
        $"cg/big/machine/M{machine}/job",
        FormattableString.Invariant($$"""{"serial":"S{{machine}}","part":"P{{machine % 8}}","operation":"40","plannedMinutes":40,"startC":{{20 + ((machine % 5) * 0.2):0.0}},"startU":0.1}"""));

    public async Task RunAsync(CancellationToken ending)
    {
        var clock = Stopwatch.StartNew();
        using var slices = new PeriodicTimer(Slice);
        while (!ending.IsCancellationRequested)
        {
            await slices.WaitForNextTickAsync(CancellationToken.None);
            var due = Math.Min(Sent + MostAtOnce, (long)(clock.Elapsed.TotalSeconds * sensors));
            await Task.WhenAll(Enumerable.Range(0, (int)(due - Sent)).Select(i => SendReadingAsync(Sent + i)).ToArray());
            Sent = due;
        }
    }

    public void Dispose() => client.Dispose();

    private Task SendReadingAsync(long number)
    {
        var sensor = (int)(number % sensors);
        var time = began.AddSeconds(number / (double)sensors).ToUnixTimeMilliseconds();
        var value = 20 + (0.3 * Math.Sin((number / (double)sensors / 600) + sensor)) + (0.02 * (random.NextDouble() - 0.5));
        return SendAsync(topics[sensor], string.Create(CultureInfo.InvariantCulture, $"{{\"t\":{time},\"v\":{value:0.000},\"u\":\"C\"}}"));
    }

    private Task SendAsync(string topic, string payload) => client.PublishAsync(new MqttApplicationMessage
    {
        Topic = topic, PayloadSegment = Encoding.UTF8.GetBytes(payload), QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
    });
}
