using System.Diagnostics;
using System.Globalization;

namespace ClimateGuard.Benchmarks.PermitLatency;

/// <summary>
/// How long a control waits for its answer: 100 machines and 1 000 sensors at 1 Hz through a real mosquitto into the real program, requests by
/// HTTP and by MQTT 5 meanwhile. Prints p50, p95 and p99, and beside them the bare round trip of the same broker and of an HTTP answer that
/// computes nothing. Run it on a Release build: <c>dotnet run -c Release --project tests/ClimateGuard.Benchmarks -- permit-latency</c>.
/// </summary>
internal static class PermitLatencyBench
{
    private const int Machines = 100;
    private const int Sensors = 1000;
    private static readonly TimeSpan Warmup = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(40);

    public static async Task RunAsync()
    {
        await using var shop = await BigShop.StartAsync(Machines, Sensors);
        using var ending = new CancellationTokenSource();
        var readings = shop.PublishReadingsAsync(ending.Token);
        await shop.LoadJobsAsync();
        await Task.Delay(Warmup);
        var rows = new List<(string What, double[] Milliseconds)>
        {
            ("HTTP, an answer that computes nothing (ceiling)", await shop.HttpLiveAsync(Measured / 4)),
            ("HTTP, POST /permits", await shop.HttpPermitsAsync(Measured)),
            ("MQTT, bare round trip through the broker (ceiling)", await shop.MqttEchoAsync(Measured / 4)),
            ("MQTT 5, request and answer", await shop.MqttPermitsAsync(Measured)),
        };
        await ending.CancelAsync();
        await readings;
        Print(rows, shop);
    }

    private static void Print(List<(string What, double[] Milliseconds)> rows, BigShop shop)
    {
        Console.WriteLine(FormattableString.Invariant(
            $"{Machines} machines, {Sensors} sensors at 1 Hz, {Environment.ProcessorCount} cores, .NET {Environment.Version}, load average {File.ReadAllText("/proc/loadavg").Split(' ')[0]}"));
        Console.WriteLine(FormattableString.Invariant($"worker: {shop.WorkerCores():0.00} cores, {shop.WorkerMegabytes():0} MB"));
        Console.WriteLine();
        Console.WriteLine("| what | requests | p50 ms | p95 ms | p99 ms | max ms | p99 over ceiling |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- |");
        double ceiling = 1;
        foreach (var (what, times) in rows)
        {
            Array.Sort(times);
            ceiling = what.Contains("ceiling", StringComparison.Ordinal) ? Quantile(times, 0.99) : ceiling;
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {what} | {times.Length} | {Quantile(times, 0.5):0.0} | {Quantile(times, 0.95):0.0} | {Quantile(times, 0.99):0.0} | {times[^1]:0.0} | {Quantile(times, 0.99) / ceiling:0.0} |"));
        }
    }

    private static double Quantile(double[] sorted, double share) => sorted[Math.Min(sorted.Length - 1, (int)(share * sorted.Length))];
}
