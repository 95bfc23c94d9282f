using System.Diagnostics;
using ClimateGuard.Benchmarks.Shop;

namespace ClimateGuard.Benchmarks.Ingest;

/// <summary>
/// From broker to disk: the rate at which the real program commits readings, beside the rate at which a bare MQTT client counts them; same broker,
/// same publisher, taken in turn. <c>… -- ingest [folder]</c>: the store
/// lies below that folder; in memory (/dev/shm) the disk and whoever else writes to it are left out.
/// </summary>
internal static class IngestBench
{
    private const int Machines = 10;
    private const int Sensors = 1000;
    private const int Rounds = 3;
    private static readonly TimeSpan Warmup = TimeSpan.FromSeconds(6);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(20);

    public static async Task RunAsync(string storeBase)
    {
        Console.WriteLine(FormattableString.Invariant(
            $"store below {storeBase}, {Sensors} sensors, payloads of 38 bytes, {Environment.ProcessorCount} cores, .NET {Environment.Version}, load average {LoadAverage()}"));
        Console.WriteLine();
        Console.WriteLine("| QoS | round | bare, counted/s | worker, committed/s | ratio | worker cores | bare cores | broker cores | publisher cores | worker MB | B/row | set aside | lost |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (var (qos, rounds) in ((int, int)[])[(1, Rounds), (0, 1)])
        {
            for (var round = 1; round <= rounds; round++)
            {
                var bare = await BareAsync(qos);
                var worker = await WorkerAsync(qos, storeBase);
                Console.WriteLine(FormattableString.Invariant(
                    $"| {qos} | {round} | {bare.PerSecond:0} | {worker.PerSecond:0} | {worker.PerSecond / bare.PerSecond:0.00} | {worker.Cores:0.00} | {bare.Cores:0.00} | {worker.BrokerCores:0.00} | {worker.PublisherCores:0.00} | {worker.Megabytes:0} | {worker.BytesPerRow:0.0} | {worker.SetAside} | {worker.Lost} |"));
            }
        }
    }

    private static string LoadAverage() => File.ReadAllText("/proc/loadavg").Split(' ')[0];

    private static async Task<Row> BareAsync(int qos)
    {
        await using var broker = await ShopBroker.StartAsync();
        await using var bare = await BareSubscriber.StartAsync(broker.Port);
        return await MeasureAsync(broker, qos, () => Task.FromResult(bare.Counted), () => bare.ProcessorTime);
    }

    private static async Task<Row> WorkerAsync(int qos, string storeBase)
    {
        await using var broker = await ShopBroker.StartAsync();
        await using var worker = await ShopWorker.StartAsync(BigPlant.Text(Machines, Sensors), broker.Port, storeBase);
        var row = await MeasureAsync(broker, qos, CommittedAsync, () => worker.ProcessorTime);
        return row with
        {
            Megabytes = worker.Megabytes,
            BytesPerRow = await worker.MetricAsync("climateguard_store_size_bytes") / await CommittedAsync(),
            SetAside = await SetAsideAsync(),
        };

        // What trust sets aside is committed too, in a table of its own.
        async Task<long> CommittedAsync() => (long)await worker.MetricAsync("climateguard_store_rows") + await SetAsideAsync();

        async Task<long> SetAsideAsync() => (long)await worker.MetricAsync("climateguard_readings_total{outcome=\"quarantined\"");
    }

    private static async Task<Row> MeasureAsync(ShopBroker broker, int qos, Func<Task<long>> count, Func<TimeSpan> processorTime)
    {
        using var flood = new Flood(broker.Port, Sensors, qos);
        using var ending = new CancellationTokenSource();
        var publishing = flood.RunAsync(ending.Token);
        await ListenAsync(flood, count, Warmup);
        var (begin, cpu, brokerCpu, ownCpu, clock) = (await count(), processorTime(), broker.ProcessorTime, Environment.CpuUsage.TotalTime, Stopwatch.StartNew());
        await ListenAsync(flood, count, Measured);
        var end = await count();
        var elapsed = clock.Elapsed;
        var row = new Row(
            (end - begin) / elapsed.TotalSeconds, (processorTime() - cpu) / elapsed, (broker.ProcessorTime - brokerCpu) / elapsed,
            (Environment.CpuUsage.TotalTime - ownCpu) / elapsed);
        await ending.CancelAsync();
        await publishing;
        for (var tries = 0; tries < 600 && await count() < flood.Sent; tries++)
        {
            await Task.Delay(100);
        }

        return row with { Lost = flood.Sent - await count() };
    }

    private static async Task ListenAsync(Flood flood, Func<Task<long>> count, TimeSpan time)
    {
        var clock = Stopwatch.StartNew();
        while (clock.Elapsed < time)
        {
            flood.Heard(await count());
            await Task.Delay(100);
        }
    }

    private sealed record Row(double PerSecond, double Cores, double BrokerCores, double PublisherCores)
    {
        public double Megabytes { get; init; }

        public double BytesPerRow { get; init; }

        /// <summary>Committed, but set aside by trust.</summary>
        public long SetAside { get; init; }

        public long Lost { get; init; }
    }
}
