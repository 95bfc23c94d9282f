using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace ClimateGuard.SystemTests.Support;

/// <summary>A real mosquitto on a free loopback port, with a folder of its own; restarting keeps its persistence.</summary>
public sealed class MosquittoBroker : IAsyncDisposable
{
    private const string Program = "/usr/sbin/mosquitto";

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-broker-").FullName;
    private readonly string extraConfig;
    private readonly string listenerConfig;
    private Process? process;

    /// <param name="listenerConfig">Lines for the listener; anonymous when empty. {folder} is the broker's folder.</param>
    /// <param name="extraConfig">More lines.</param>
    public MosquittoBroker(string listenerConfig = "allow_anonymous true", string extraConfig = "")
    {
        this.listenerConfig = listenerConfig;
        this.extraConfig = extraConfig;
        Port = FreePort();
    }

    public int Port { get; }

    public string Folder => folder;

    /// <summary>Where it is reached.</summary>
    public string Host { get; init; } = "127.0.0.1";

    /// <summary>The network namespace it lives in, reached at <see cref="Host"/>; null for this one.</summary>
    public string? Namespace { get; init; }

    /// <summary>Replaces everything this class would write.</summary>
    public string? WholeConfig { get; set; }

    /// <summary>Skips the test when mosquitto is not installed, unless CLIMATEGUARD_REQUIRE_TOOLS=1: then the test fails.</summary>
    public static void Require()
    {
        if (File.Exists(Program))
        {
            return;
        }

        const string reason = $"{Program} is not installed (apt-get install mosquitto), so nothing is known about the real broker";
        Assert.False(Environment.GetEnvironmentVariable("CLIMATEGUARD_REQUIRE_TOOLS") == "1", reason);
        Assert.Skip(reason);
    }

    public static async Task<MosquittoBroker> StartNewAsync(string listenerConfig = "allow_anonymous true", string extraConfig = "")
    {
        Require();
        var broker = new MosquittoBroker(listenerConfig, extraConfig);
        await broker.StartAsync();
        return broker;
    }

    public static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    public async Task StartAsync()
    {
        Require();
        var config = Path.Combine(folder, "mosquitto.conf");
        await File.WriteAllTextAsync(config, WholeConfig ?? string.Create(CultureInfo.InvariantCulture, $"""
            listener {Port} {(Namespace is null ? "127.0.0.1" : "0.0.0.0")}
            {listenerConfig.Replace("{folder}", folder, StringComparison.Ordinal)}
            max_inflight_messages 0
            max_queued_messages 0
            persistence true
            persistence_location {folder}/
            autosave_interval 1
            set_tcp_nodelay true
            user root
            log_dest file {folder}/mosquitto.log
            {extraConfig}

            """));
        string[] command = Namespace is null ? [Program, "-c", config] : ["ip", "netns", "exec", Namespace, Program, "-c", config];
        process = Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        var patience = Stopwatch.StartNew();
        while (!await AnswersAsync())
        {
            if (process.HasExited)
            {
                Assert.Fail($"mosquitto ended at once: {await ReadLogAsync()}");
            }

            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(10), "mosquitto does not answer");
            await Task.Delay(20);
        }
    }

    /// <summary>Stops it the polite way: everything is written to disk.</summary>
    public async Task StopAsync()
    {
        if (process is { HasExited: false } running)
        {
            using var kill = Process.Start("kill", ["-TERM", running.Id.ToString(CultureInfo.InvariantCulture)]);
            await running.WaitForExitAsync(new CancellationTokenSource(TimeSpan.FromSeconds(10)).Token);
        }

        process?.Dispose();
        process = null;
    }

    /// <summary>As a power cut would: it keeps only what it saved last.</summary>
    public async Task KillAsync()
    {
        process!.Kill();
        await process.WaitForExitAsync();
        process.Dispose();
        process = null;
    }

    /// <summary>Stops and starts it on the same port with the same persistence.</summary>
    public async Task RestartAsync()
    {
        await StopAsync();
        await StartAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    private async Task<bool> AnswersAsync()
    {
        try
        {
            using var probe = new TcpClient();
            await probe.ConnectAsync(IPAddress.Parse(Host), Port);
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    private async Task<string> ReadLogAsync()
    {
        var log = Path.Combine(folder, "mosquitto.log");
        return (File.Exists(log) ? await File.ReadAllTextAsync(log) : "") + await process!.StandardError.ReadToEndAsync();
    }
}
