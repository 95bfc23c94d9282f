using System.Diagnostics;
using System.Globalization;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace ClimateGuard.Benchmarks.Shop;

/// <summary>The ceiling: an MQTTnet client that only counts, in a process of its own as the worker is.</summary>
internal sealed class BareSubscriber : IAsyncDisposable
{
    private readonly Process process;
    private long counted;

    private BareSubscriber(int brokerPort)
    {
        process = Process.Start(new ProcessStartInfo(
            "dotnet", [typeof(BareSubscriber).Assembly.Location, "bare-subscriber", brokerPort.ToString(CultureInfo.InvariantCulture)])
        {
            RedirectStandardOutput = true,
        })!;
        process.OutputDataReceived += (_, line) =>
        {
            if (line.Data is not null)
            {
                Interlocked.Exchange(ref counted, long.Parse(line.Data, CultureInfo.InvariantCulture));
            }
        };
        counted = -1;
        process.BeginOutputReadLine();
    }

    public long Counted => Interlocked.Read(ref counted);

    public TimeSpan ProcessorTime => process.TotalProcessorTime;

    public static async Task<BareSubscriber> StartAsync(int brokerPort)
    {
        var bare = new BareSubscriber(brokerPort);
        while (bare.Counted < 0)
        {
            await Task.Delay(50);
        }

        return bare;
    }

    /// <summary>What the process does: counts, and says the count ten times a second.</summary>
    public static async Task RunAsync(int brokerPort)
    {
        using var client = new MqttClientFactory().CreateMqttClient();
        long count = 0;
        client.ApplicationMessageReceivedAsync += _ =>
        {
            count++;
            return Task.CompletedTask;
        };
        await client.ConnectAsync(new MqttClientOptionsBuilder()
            .WithTcpServer("127.0.0.1", brokerPort).WithProtocolVersion(MqttProtocolVersion.V500).WithClientId("bare").WithReceiveMaximum(8192).Build());
        await client.SubscribeAsync("cg/big/reading/#", MqttQualityOfServiceLevel.AtLeastOnce);
        while (client.IsConnected)
        {
            Console.WriteLine(Interlocked.Read(ref count).ToString(CultureInfo.InvariantCulture));
            await Task.Delay(100);
        }
    }

    public async ValueTask DisposeAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
        process.Dispose();
    }
}
