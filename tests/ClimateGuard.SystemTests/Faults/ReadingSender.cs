using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Threading.Channels;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>
/// A gateway that does its duty: numbered readings at a steady rate, many in flight, QoS 1; what the broker did not acknowledge is sent again, and
/// when each was acknowledged is remembered. Reading n is of sensor n mod 500, so that (sensor, time) is different for each.
/// </summary>
public sealed class ReadingSender : IAsyncDisposable
{
    private const int InFlight = 256;
    private const int Most = 4_000_000;

    /// <summary>
    /// A connection that breaks while a publish is being sent can leave it without an answer for ever, since the client's own time limit does not
    /// apply where a token is given. A gateway does not wait for ever: it sends again.
    /// </summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly SemaphoreSlim connecting = new(1);
    private readonly Channel<long> toSend = Channel.CreateUnbounded<long>();
    private readonly CancellationTokenSource stop = new();
    private readonly long[] acknowledgedAt = new long[Most];
    private readonly MqttClientOptions options;
    private readonly long firstTime = DateTimeOffset.UtcNow.ToUnixTimeMilliseconds();
    private readonly double perSecond;
    private readonly Task[] lanes;
    private long produced;
    private long acknowledged;
    private long failures;

    public ReadingSender(string host, int port, double perSecond)
    {
        this.perSecond = perSecond;
        options = new MqttClientOptionsBuilder().WithTcpServer(host, port).WithProtocolVersion(MqttProtocolVersion.V500)
            .WithTimeout(TimeSpan.FromSeconds(5)).Build();
        lanes = [.. Enumerable.Range(0, InFlight).Select(_ => Task.Run(LaneAsync))];
    }

    /// <summary>How many readings there are so far; they are numbered from 0.</summary>
    public long Produced => Interlocked.Read(ref produced);

    /// <summary>How many publishes failed and were sent again.</summary>
    public long Failures => Interlocked.Read(ref failures);

    /// <summary>When the broker acknowledged a reading, as a timestamp of <see cref="Stopwatch"/>; 0 when it did not.</summary>
    public long AcknowledgedAt(long number) => Volatile.Read(ref acknowledgedAt[number]);

    public (int Sensor, long Time) Key(long number) =>
        ((int)(number % FaultCell.Sensors), firstTime + (long)(number / FaultCell.Sensors * (FaultCell.Sensors * 1000.0 / perSecond)));

    public static double Value(long number) => 20 + (number % 97 / 1000.0);

    /// <summary>Produces at the rate until told to end; what was produced is sent in any case.</summary>
    public async Task ProduceAsync(CancellationToken ending)
    {
        var (clock, before) = (Stopwatch.StartNew(), Produced);
        while (!ending.IsCancellationRequested)
        {
            var due = Math.Min(Most, before + (long)(clock.Elapsed.TotalSeconds * perSecond));
            for (; produced < due; Interlocked.Increment(ref produced))
            {
                toSend.Writer.TryWrite(produced);
            }

            await Task.Delay(5, CancellationToken.None);
        }
    }

    public async Task ProduceForAsync(TimeSpan time)
    {
        using var ending = new CancellationTokenSource(time);
        await ProduceAsync(ending.Token);
    }

    /// <summary>Sends readings once more, as a gateway does that keeps the last seconds.</summary>
    public async Task SendAgainAsync(IReadOnlyCollection<long> numbers)
    {
        Interlocked.Add(ref acknowledged, -numbers.Count);
        foreach (var number in numbers)
        {
            toSend.Writer.TryWrite(number);
        }

        await UntilAllAcknowledgedAsync();
    }

    public async Task UntilAllAcknowledgedAsync()
    {
        var patience = Stopwatch.StartNew();
        while (Interlocked.Read(ref acknowledged) < Produced)
        {
            Assert.True(patience.Elapsed < TimeSpan.FromMinutes(2), $"the broker acknowledged {acknowledged} of {Produced} readings");
            await Task.Delay(20);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await Task.WhenAll(lanes).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        client.Dispose();
        connecting.Dispose();
        stop.Dispose();
    }

    private async Task LaneAsync()
    {
        await foreach (var number in toSend.Reader.ReadAllAsync(stop.Token))
        {
            while (!await TrySendAsync(number))
            {
                Interlocked.Increment(ref failures);
                await Task.Delay(20, stop.Token);
            }

            Volatile.Write(ref acknowledgedAt[number], Stopwatch.GetTimestamp());
            Interlocked.Increment(ref acknowledged);
        }
    }

    private async Task<bool> TrySendAsync(long number)
    {
        try
        {
            await ConnectAsync();
            var (sensor, time) = Key(number);
            var payload = string.Create(CultureInfo.InvariantCulture, $"{{\"t\":{time},\"v\":{Value(number):0.000},\"u\":\"C\"}}");
            var answer = await client.PublishAsync(
                new MqttApplicationMessage
                {
                    Topic = FaultCell.Topic(sensor),
                    PayloadSegment = Encoding.ASCII.GetBytes(payload),
                    QualityOfServiceLevel = MqttQualityOfServiceLevel.AtLeastOnce,
                },
                stop.Token).WaitAsync(Patience, stop.Token);
            return answer.IsSuccess;
        }
        catch (Exception failed) when (!stop.IsCancellationRequested && failed is not OutOfMemoryException)
        {
            // The broker is dead, away or mute: not acknowledged, whatever the client calls it.
            return false;
        }
    }

    private async Task ConnectAsync()
    {
        if (client.IsConnected)
        {
            return;
        }

        await connecting.WaitAsync(stop.Token);
        try
        {
            if (!client.IsConnected)
            {
                await client.ConnectAsync(options, stop.Token);
            }
        }
        finally
        {
            connecting.Release();
        }
    }
}
