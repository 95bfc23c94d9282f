using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.Benchmarks.PermitLatency;

/// <summary>A broker, a worker and the traffic of a large shop, all on loopback.</summary>
internal sealed class BigShop : IAsyncDisposable
{
    private static readonly TimeSpan Pace = TimeSpan.FromMilliseconds(50);

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-bench-").FullName;
    private readonly int machines;
    private readonly int sensors;
    private readonly int brokerPort = FreePort();
    private readonly int httpPort = FreePort();
    private readonly HttpClient http = new();
    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly ConcurrentDictionary<string, TaskCompletionSource<long>> waiting = new();
    private Process? broker;
    private Process? worker;
    private int next;
    private Stopwatch running = new();

    private BigShop(int machines, int sensors)
    {
        this.machines = machines;
        this.sensors = sensors;
    }

    public static async Task<BigShop> StartAsync(int machines, int sensors)
    {
        var shop = new BigShop(machines, sensors);
        await File.WriteAllTextAsync(Path.Combine(shop.folder, "plant.yaml"), BigPlant.Text(machines, sensors));
        await File.WriteAllTextAsync(
            Path.Combine(shop.folder, "mosquitto.conf"),
            $"listener {shop.brokerPort} 127.0.0.1\nallow_anonymous true\nmax_inflight_messages 0\nmax_queued_messages 0\nset_tcp_nodelay true\npersistence false\n");
        shop.broker = Process.Start("/usr/sbin/mosquitto", ["-c", Path.Combine(shop.folder, "mosquitto.conf")]);
        await Task.Delay(500);
        shop.worker = StartWorker(shop);
        shop.http.BaseAddress = new Uri($"http://127.0.0.1:{shop.httpPort}");
        await shop.UntilReadyAsync();
        shop.running = Stopwatch.StartNew();
        await shop.ConnectAsync();
        return shop;
    }

    public double WorkerCores() => worker!.TotalProcessorTime / running.Elapsed;

    public double WorkerMegabytes()
    {
        worker!.Refresh();
        return worker.WorkingSet64 / 1e6;
    }

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
        http.Dispose();
        foreach (var process in (Process?[])[worker, broker])
        {
            process?.Kill();
            process?.Dispose();
        }

        await Task.Delay(200);
        Directory.Delete(folder, recursive: true);
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
        await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", brokerPort).WithProtocolVersion(MqttProtocolVersion.V500).WithClientId("bench").Build());
        await client.SubscribeAsync("bench/#");
    }

    private async Task UntilReadyAsync()
    {
        for (var tries = 0; tries < 300; tries++)
        {
            try
            {
                using var answer = await http.GetAsync("/health/ready");
                if (answer.IsSuccessStatusCode)
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            await Task.Delay(100);
        }

        throw new InvalidOperationException("The worker does not get ready; is a Release build of src/ClimateGuard.Worker there?");
    }

    private static Process StartWorker(BigShop shop)
    {
        var program = Directory.EnumerateFiles(Path.Combine(FindRoot(), "src", "ClimateGuard.Worker", "bin", "Release"), "climateguard.dll", SearchOption.AllDirectories).First();
        var start = new ProcessStartInfo("dotnet", [program, "run", "--plant", Path.Combine(shop.folder, "plant.yaml")]) { RedirectStandardError = false };
        start.Environment["CLIMATEGUARD_Broker__Port"] = shop.brokerPort.ToString(CultureInfo.InvariantCulture);
        start.Environment["CLIMATEGUARD_Storage__Path"] = Path.Combine(shop.folder, "data");
        start.Environment["CLIMATEGUARD_Http__Urls"] = $"http://127.0.0.1:{shop.httpPort}";
        return Process.Start(start)!;
    }

    private static string FindRoot()
    {
        var place = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(place!.FullName, "ClimateGuard.sln")))
        {
            place = place.Parent;
        }

        return place.FullName;
    }

    private static MqttApplicationMessage Message(string topic, string payload) => new MqttApplicationMessageBuilder()
        .WithTopic(topic).WithPayload(payload).WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build();

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
