using System.Diagnostics;
using ClimateGuard.Benchmarks.Shop;

namespace ClimateGuard.Benchmarks.BigCell;

/// <summary>
/// What a large shop costs: sensors at 1 Hz through a real mosquitto into the real program, each machine with a part of 20 features. Targets for
/// 10 000 sensors and 500 machines: less than one core, less than 600 MB. <c>… -- big-cell [sensors]</c>.
/// </summary>
internal static class BigCellBench
{
    private const int Features = 20;
    private static readonly TimeSpan Warmup = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(75);

    public static async Task RunAsync(int onlySensors)
    {
        Console.WriteLine(FormattableString.Invariant(
            $"{Features} features a machine, {Environment.ProcessorCount} cores, .NET {Environment.Version}, load average {File.ReadAllText("/proc/loadavg").Split(' ')[0]}"));
        Console.WriteLine();
        Console.WriteLine("| sensors at 1 Hz | machines | committed/s | worker cores | worker MB | outlooks/s | ledger lines/s | round trip of a page, ms |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (var (sensors, machines) in (((int Sensors, int Machines)[])[(100, 5), (1000, 50), (10_000, 500)]).Where(size => onlySensors == 0 || size.Sensors == onlySensors))
        {
            await MeasureAsync(sensors, machines);
        }
    }

    private static async Task MeasureAsync(int sensors, int machines)
    {
        await using var broker = await ShopBroker.StartAsync();
        await using var worker = await ShopWorker.StartAsync(BigPlant.Text(machines, sensors, Features), broker.Port);
        using var steady = new SteadySensors(broker.Port, sensors);
        using var ending = new CancellationTokenSource();
        await steady.ConnectAsync();
        var sending = steady.RunAsync(ending.Token);
        await Task.Delay(TimeSpan.FromSeconds(2));
        await Task.WhenAll(Enumerable.Range(0, machines).Select(steady.LoadAsync));
        await Task.Delay(Warmup);
        var (begin, cpu, clock) = (await CountsAsync(worker), worker.ProcessorTime, Stopwatch.StartNew());
        var peak = 0.0;
        while (clock.Elapsed < Measured)
        {
            await Task.Delay(1000);
            peak = Math.Max(peak, worker.Megabytes);
        }

        var (seconds, used, end) = (clock.Elapsed.TotalSeconds, worker.ProcessorTime - cpu, await CountsAsync(worker));
        var asked = Stopwatch.GetTimestamp();
        await worker.Http.GetStringAsync("/api/v1/machines");
        var page = Stopwatch.GetElapsedTime(asked).TotalMilliseconds;
        await ending.CancelAsync();
        await sending;
        Console.WriteLine(FormattableString.Invariant(
            $"| {sensors} | {machines} | {(end.Rows - begin.Rows) / seconds:0} | {used.TotalSeconds / seconds:0.00} | {peak:0} | {(end.Outlooks - begin.Outlooks) / seconds:0.0} | {(end.Lines - begin.Lines) / seconds:0.0} | {page:0} |"));
    }

    private static async Task<(double Rows, double Outlooks, double Lines)> CountsAsync(ShopWorker worker)
    {
        var machines = System.Text.Json.JsonDocument.Parse(await worker.Http.GetStringAsync("/api/v1/machines")).RootElement;
        var outlooks = machines.EnumerateArray().Sum(machine => machine.TryGetProperty("seq", out var seq) ? seq.GetDouble() : 0);
        return (await worker.MetricAsync("climateguard_store_rows"), outlooks, await worker.MetricAsync("climateguard_ledger_lines_total"));
    }
}
