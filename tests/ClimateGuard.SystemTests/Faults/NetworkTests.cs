using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>Cables that are pulled, lines that are long and thin, and a worker that sleeps.</summary>
public sealed class NetworkTests
{
    [Fact]
    public async Task A_line_that_falls_silent_is_noticed_by_keep_alive_and_nothing_is_lost()
    {
        CuttableWire? wire = null;
        await using var bench = await FaultBench.StartAsync(1000, broker => (wire = new CuttableWire(broker.Port)).Port);
        await using var _ = wire!;
        using var ending = new CancellationTokenSource();
        var producing = bench.Sender.ProduceAsync(ending.Token);
        await Task.Delay(2000);
        wire!.FallSilent();

        // Neither end is told: only the keep-alive of 15 s and its patience of 10 s can tell.
        await bench.Worker.UntilLogAsync("No connection to the broker");
        wire.Mend();
        await FinishAsync(bench, ending, producing);
    }

    [Fact]
    public async Task A_network_that_is_cut_between_two_hosts_is_noticed_and_nothing_is_lost()
    {
        await using var network = await BrokerHost.BuildAsync();
        await using var bench = await FaultBench.StartAsync(network.Broker, 1000, network.WorkerSees, network.Broker.Port);
        using var ending = new CancellationTokenSource();
        var producing = bench.Sender.ProduceAsync(ending.Token);
        await Task.Delay(2000);
        await network.CutAsync();
        await bench.Worker.UntilLogAsync("No connection to the broker");
        await network.MendAsync();
        await FinishAsync(bench, ending, producing);
    }

    [Fact]
    public async Task A_slow_line_to_the_broker_delays_readings_and_loses_none()
    {
        CuttableWire? wire = null;
        await using var bench = await FaultBench.StartAsync(
            1500, broker => (wire = new CuttableWire(broker.Port, TimeSpan.FromMilliseconds(200), 64_000)).Port);
        await using var _ = wire!;
        await bench.Sender.ProduceForAsync(TimeSpan.FromSeconds(FaultBench.Long ? 120 : 10));
        Assert.Single(bench.Worker.Log.Split('\n'), line => line.Contains("Connected to the broker", StringComparison.Ordinal));
        await bench.SettleAsync();
        Assert.Empty(await bench.MissingAsync());
        FaultBench.Report($"| 200 ms and 64 kB/s | {bench.Sender.Produced} readings | 0 missing |");
    }

    [Fact]
    public async Task A_worker_that_is_stopped_for_ten_seconds_takes_up_what_came_meanwhile()
    {
        await using var bench = await FaultBench.StartAsync(5000);
        using var ending = new CancellationTokenSource();
        var producing = bench.Sender.ProduceAsync(ending.Token);
        await Task.Delay(2000);
        await bench.Worker.SignalAsync("STOP");
        await Task.Delay(10_000);
        await bench.Worker.SignalAsync("CONT");
        await FinishAsync(bench, ending, producing);
    }

    private static async Task FinishAsync(FaultBench bench, CancellationTokenSource ending, Task producing)
    {
        await Task.Delay(1000);
        await ending.CancelAsync();
        await producing;
        await bench.SettleAsync();
        Assert.Empty(await bench.MissingAsync());
        FaultBench.Report($"| {TestContext.Current.TestMethod!.MethodName} | {bench.Sender.Produced} readings | 0 missing |");
    }
}
