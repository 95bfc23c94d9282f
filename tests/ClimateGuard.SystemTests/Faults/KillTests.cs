using System.Diagnostics;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>Worker and broker are killed as a power cut would, at random moments, under 5 000 readings a second.</summary>
/// <remarks>
/// What the broker has acknowledged and the worker has not is with the broker. A broker that is killed itself knows only what it saved last: mosquitto
/// writes its sessions once a second (autosave_interval 1), so what it acknowledged in the second before its own death, and had not yet delivered
/// and seen acknowledged, is gone with it; no subscriber can help that. So there are two checks. First, without any help: only readings acknowledged within
/// <see cref="BrokerForgets"/> of a kill of the broker may be missing. Then the gateway sends those again, as one that keeps the last seconds
/// does, and every reading is there exactly once.
/// </remarks>
public sealed class KillTests
{
    /// <summary>One second of autosave, and the time the save itself and the kill take on a busy machine.</summary>
    private static readonly TimeSpan BrokerForgets = TimeSpan.FromSeconds(2);

    private static readonly int Rounds = FaultBench.Long ? 20 : 4;

    [Fact]
    public async Task However_often_worker_and_broker_are_killed_every_acknowledged_reading_is_stored_exactly_once()
    {
        await using var bench = await FaultBench.StartAsync(5000);
        using var ending = new CancellationTokenSource();
        var producing = bench.Sender.ProduceAsync(ending.Token);
        var random = new Random(20);
        var brokerKills = new List<long>();
        await Task.Delay(3000);
        for (var round = 0; round < Rounds; round++)
        {
            await Task.Delay(random.Next(500, 3000));
            var (killsWorker, killsBroker) = (round % 3 != 1, round % 3 != 0);
            await KillAsync(bench, killsWorker, killsBroker, brokerKills, random);
            FaultBench.Report($"| {round + 1} | {(killsWorker ? "worker" : "")}{(killsWorker && killsBroker ? " and " : "")}{(killsBroker ? "broker" : "")} | {bench.Sender.Produced} |");
        }

        await Task.Delay(2000);
        await ending.CancelAsync();
        await producing;
        await bench.SettleAsync();
        var missing = await bench.MissingAsync();
        var unexplained = missing.Where(number => !brokerKills.Any(kill => MayBeForgotten(bench.Sender.AcknowledgedAt(number), kill))).ToArray();
        FaultBench.Report($"| all | {Rounds} kills, {brokerKills.Count} of the broker | {bench.Sender.Produced} readings, {bench.Sender.Failures} sends again, {missing.Count} forgotten by the broker, {unexplained.Length} lost |");
        Assert.Empty(unexplained);

        bench.Worker.StartAgain();
        await bench.Worker.UntilReadyAsync();
        await bench.Sender.SendAgainAsync(missing);
        await bench.SettleAsync();
        Assert.Empty(await bench.MissingAsync());
    }

    /// <summary>The kill that always falls between taking a reading and committing it; at random moments few do.</summary>
    [Fact]
    public async Task A_worker_that_is_killed_while_its_store_is_stuck_had_acknowledged_nothing_that_is_not_stored()
    {
        await using var bench = await FaultBench.StartAsync(2000);
        using var ending = new CancellationTokenSource();
        var producing = bench.Sender.ProduceAsync(ending.Token);
        await Task.Delay(2000);
        using (bench.HoldStore())
        {
            await Task.Delay(2000);
            await bench.Worker.KillAsync();
        }

        await ending.CancelAsync();
        await producing;
        bench.Worker.StartAgain();
        await bench.SettleAsync();
        Assert.Empty(await bench.MissingAsync());
    }

    [Fact]
    public async Task A_broker_that_is_restarted_politely_loses_nothing_at_all()
    {
        await using var bench = await FaultBench.StartAsync(5000);
        using var ending = new CancellationTokenSource();
        var producing = bench.Sender.ProduceAsync(ending.Token);
        for (var round = 0; round < (FaultBench.Long ? 10 : 2); round++)
        {
            await Task.Delay(2000);
            await bench.Broker.RestartAsync();
        }

        await Task.Delay(2000);
        await ending.CancelAsync();
        await producing;
        await bench.SettleAsync();
        Assert.Empty(await bench.MissingAsync());
        FaultBench.Report($"| restart of the broker | {bench.Sender.Produced} readings | 0 missing |");
    }

    private static async Task KillAsync(FaultBench bench, bool worker, bool broker, List<long> brokerKills, Random random)
    {
        if (worker)
        {
            await bench.Worker.KillAsync();
        }

        if (broker)
        {
            brokerKills.Add(Stopwatch.GetTimestamp());
            await bench.Broker.KillAsync();
        }

        await Task.Delay(random.Next(0, 1000));
        if (broker)
        {
            await bench.Broker.StartAsync();
        }

        if (worker)
        {
            bench.Worker.StartAgain();
            await bench.Worker.UntilReadyAsync();
        }
    }

    private static bool MayBeForgotten(long acknowledged, long kill) =>
        acknowledged <= kill + Stopwatch.Frequency / 10 && Stopwatch.GetElapsedTime(acknowledged, kill) <= BrokerForgets;
}
