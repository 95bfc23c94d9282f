using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace ClimateGuard.Benchmarks.Shop;

/// <summary>A mosquitto of its own on a free loopback port, without limits and without persistence.</summary>
internal sealed class ShopBroker : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-bench-").FullName;
    private readonly Process process;

    private ShopBroker()
    {
        var config = Path.Combine(folder, "mosquitto.conf");
        File.WriteAllText(config, string.Create(CultureInfo.InvariantCulture, $"""
            listener {Port} 127.0.0.1
            allow_anonymous true
            max_inflight_messages 0
            max_queued_messages 0
            set_tcp_nodelay true
            persistence false

            """));
        process = Process.Start("/usr/sbin/mosquitto", ["-c", config]);
    }

    public int Port { get; } = FreePort();

    public TimeSpan ProcessorTime => process.TotalProcessorTime;

    public static async Task<ShopBroker> StartAsync()
    {
        var broker = new ShopBroker();
        await Task.Delay(500);
        return broker;
    }

    public static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    public async ValueTask DisposeAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }
}
