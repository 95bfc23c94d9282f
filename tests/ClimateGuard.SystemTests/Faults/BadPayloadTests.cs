using System.Diagnostics;
using ClimateGuard.SystemTests.Support;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>Mutated payloads through the real broker into the real worker, with good readings among them.</summary>
public sealed class BadPayloadTests
{
    private const int Lanes = 64;

    private static readonly int Payloads = FaultBench.Long ? 1_000_000 : 50_000;

    [Fact]
    public async Task Mutated_payloads_are_counted_one_by_one_and_the_good_readings_among_them_are_stored()
    {
        await using var bench = await FaultBench.StartAsync(200);
        using var ending = new CancellationTokenSource();
        var producing = bench.Sender.ProduceAsync(ending.Token);
        using var bad = new MqttClientFactory().CreateMqttClient();
        await bad.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", bench.Broker.Port).WithProtocolVersion(MqttProtocolVersion.V500).Build());
        var memory = new List<double>();
        for (var part = 0; part < 10; part++)
        {
            await SendAsync(bad, part);
            memory.Add(FaultBench.Megabytes(bench.Worker.Id));
        }

        await ending.CancelAsync();
        await producing;
        await bench.Sender.UntilAllAcknowledgedAsync();
        var sent = Payloads + bench.Sender.Produced;
        var (read, setAside, unreadable) = await UntilCountedAsync(bench, sent);
        FaultBench.Report($"| {Payloads} mutated payloads | {unreadable} unreadable, {read} read, {setAside} set aside of {sent} sent | memory {string.Join(", ", memory.Select(megabytes => $"{megabytes:0}"))} MB |");

        Assert.Equal(sent, read + setAside + unreadable);
        Assert.InRange(unreadable, Payloads / 4, Payloads);
        Assert.True(memory[^1] < memory.Take(5).Max() + 60, $"the memory grows: {string.Join(", ", memory)} MB");
        await bench.SettleAsync();
        Assert.Empty(await bench.MissingAsync());
    }

    private static async Task SendAsync(IMqttClient client, int part)
    {
        var left = Payloads / 10;
        await Task.WhenAll(Enumerable.Range(0, Lanes).Select(lane => Task.Run(async () =>
        {
            var mutator = new PayloadMutator((part * Lanes) + lane);
            var random = new Random(lane);
            while (Interlocked.Decrement(ref left) >= 0)
            {
                var result = await client.PublishAsync(new MqttApplicationMessage
                {
                    Topic = random.Next(50) == 0 ? $"cg/faults/reading/air/x{random.Next(5000)}" : FaultCell.Topic(FaultCell.Sensors + random.Next(FaultCell.BadSensors)),
                    PayloadSegment = mutator.Next(),
                    QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
                });
                Assert.True(result.IsSuccess);
            }
        })));
    }

    private static async Task<(long Read, long SetAside, long Unreadable)> UntilCountedAsync(FaultBench bench, long sent)
    {
        var (patience, before) = (Stopwatch.StartNew(), -1L);
        while (true)
        {
            var read = (long)await bench.MetricAsync("climateguard_readings_total{outcome=\"accepted\"}");
            var setAside = (long)await bench.MetricAsync("climateguard_readings_total{outcome=\"quarantined\"}");
            var unreadable = (long)await bench.MetricAsync("climateguard_unreadable_messages_total");
            var counted = read + setAside + unreadable;
            if (counted >= sent || patience.Elapsed > TimeSpan.FromSeconds(60))
            {
                return (read, setAside, unreadable);
            }

            // A slow machine may take its time; a queue that is blocked moves no more.
            if (counted > before)
            {
                (before, patience) = (counted, Stopwatch.StartNew());
            }

            await Task.Delay(200);
        }
    }
}
