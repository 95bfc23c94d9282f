using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using ClimateGuard.Benchmarks.Shop;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.Benchmarks.PermitLatency;

/// <summary>A broker, a worker and the traffic of a large shop, all on loopback.</summary>
internal sealed class BigShop : IAsyncDisposable
{
    private static readonly TimeSpan Pace = TimeSpan.FromMilliseconds(50);

    private readonly int machines;
    private readonly int sensors;
    private readonly ShopBroker broker;
    private readonly ShopWorker worker;
    private readonly HttpClient http;
    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly ConcurrentDictionary<string, TaskCompletionSource<long>> waiting = new();
    private readonly Stopwatch running = Stopwatch.StartNew();
    private readonly TimeSpan began;
    private int next;

    private BigShop(int machines, int sensors, ShopBroker broker, ShopWorker worker)
    {
        this.machines = machines;
        this.sensors = sensors;
        this.broker = broker;
        this.worker = worker;
        http = worker.Http;
        began = worker.ProcessorTime;
    }

    public static async Task<BigShop> StartAsync(int machines, int sensors)
    {
        var broker = await ShopBroker.StartAsync();
        var shop = new BigShop(machines, sensors, broker, await ShopWorker.StartAsync(BigPlant.Text(machines, sensors), broker.Port));
        await shop.ConnectAsync();
        return shop;
    }

    public double WorkerCores() => (worker.ProcessorTime - began) / running.Elapsed;

    public double WorkerMegabytes() => worker.Megabytes;

    public async Task PublishReadingsAsync(CancellationToken ending)
    {
        using var second = new PeriodicTimer(TimeSpan.FromMilliseconds(100));
        var slice = 0;
        try
        {
            while (await second.WaitForNextTickAsync(ending))
            {
                for (var s = slice; s < sensors; s += 10)
                {
                    await client.PublishAsync(Message($"cg/big/reading/s{s}", Invariant($"{20 + (0.05 * Math.Sin(s + Environment.TickCount64 / 6e4)):0.000}")), ending);
                }

                slice = (slice + 1) % 10;
            }
        }
        catch (OperationCanceledException)
        {
            // The measurement is over.
        }
    }

    public async Task LoadJobsAsync()
    {
        for (var m = 0; m < machines; m++)
        {
            await client.PublishAsync(Message(
                $"cg/big/machine/M{m}/job", Invariant($$"""{"serial":"S{{m}}","part":"P{{m % 8}}","operation":"40","plannedMinutes":40,"startC":{{20 + ((m % 5) * 0.4):0.0}},"startU":0.1}""")));
        }
    }

    public Task<double[]> HttpLiveAsync(TimeSpan time) => TimeAsync(time, async _ =>
    {
        using var answer = await http.GetAsync("/health/live");
        await answer.Content.ReadAsStringAsync();
    });

    public Task<double[]> HttpPermitsAsync(TimeSpan time) => TimeAsync(time, async i =>
    {
        using var content = new StringContent(Request(i, "h"), Encoding.UTF8, "application/json");
        using var answer = await http.PostAsync("/api/v1/permits", content);
        var text = await answer.Content.ReadAsStringAsync();
        if (!answer.IsSuccessStatusCode)
        {
            throw new InvalidOperationException(text);
        }
    });

    public Task<double[]> MqttEchoAsync(TimeSpan time) => TimeAsync(time, i => AskAsync($"bench/echo", $"e{i}", "x", responseTopic: null));

    public Task<double[]> MqttPermitsAsync(TimeSpan time) => TimeAsync(time, i =>
        AskAsync($"cg/big/machine/M{i % machines}/permit/request", $"q{i}", Request(i, "q"), "bench/answers"));

    public async ValueTask DisposeAsync()
    {
        client.Dispose();
        await worker.DisposeAsync();
        await broker.DisposeAsync();
    }

    private async Task<double[]> TimeAsync(TimeSpan time, Func<int, Task> ask)
    {
        var times = new List<double>();
        var clock = Stopwatch.StartNew();
        using var pace = new PeriodicTimer(Pace);
        while (clock.Elapsed < time && await pace.WaitForNextTickAsync())
        {
            var begin = Stopwatch.GetTimestamp();
            await ask(next++);
            times.Add(Stopwatch.GetElapsedTime(begin).TotalMilliseconds);
        }

        return [.. times];
    }

    private async Task AskAsync(string topic, string correlation, string payload, string? responseTopic)
    {
        var answered = new TaskCompletionSource<long>(TaskCreationOptions.RunContinuationsAsynchronously);
        waiting[correlation] = answered;
        var message = new MqttApplicationMessageBuilder().WithTopic(topic).WithPayload(payload)
            .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).WithCorrelationData(Encoding.ASCII.GetBytes(correlation));
        await client.PublishAsync((responseTopic is null ? message : message.WithResponseTopic(responseTopic)).Build());
        await answered.Task.WaitAsync(TimeSpan.FromSeconds(10));
    }

    private string Request(int i, string prefix) => Invariant(
        $$"""{"machine":"M{{i % machines}}","serial":"S{{i % machines}}","part":"P{{i % machines % 8}}","operation":"40","requestId":"{{prefix}}{{i}}","plannedMinutes":40}""");

    private async Task ConnectAsync()
    {
        client.ApplicationMessageReceivedAsync += received =>
        {
            if (waiting.TryRemove(Encoding.ASCII.GetString(received.ApplicationMessage.CorrelationData ?? []), out var answered))
            {
                answered.TrySetResult(0);
            }

            return Task.CompletedTask;
        };
        await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", broker.Port).WithProtocolVersion(MqttProtocolVersion.V500).WithClientId("bench").Build());
        await client.SubscribeAsync("bench/#");
    }

    private static MqttApplicationMessage Message(string topic, string payload) => new MqttApplicationMessageBuilder()
        .WithTopic(topic).WithPayload(payload).WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build();

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
