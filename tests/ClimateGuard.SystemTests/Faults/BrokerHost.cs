using System.Diagnostics;
using System.Globalization;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Faults;

/// <summary>
/// A second host on this machine: a network namespace in which a broker lives, and two cables (veth) to it, one for the sensors and one for the
/// worker, which a test can pull at the far end.
/// </summary>
public sealed class BrokerHost : IAsyncDisposable
{
    private const string SensorCable = "s";
    private const string WorkerCable = "w";

    private readonly string name = string.Create(CultureInfo.InvariantCulture, $"cg{Environment.ProcessId}");
    private readonly int net = Environment.ProcessId % 250;

    /// <summary>The broker; whoever uses it stops it.</summary>
    public MosquittoBroker Broker { get; private set; } = null!;

    /// <summary>The address of the broker through the cable of the worker.</summary>
    public string WorkerSees => $"10.91.{net}.2";

    /// <summary>Builds it; skips the test when this user may not make a network namespace. The silent wire stands for it then.</summary>
    public static async Task<BrokerHost> BuildAsync()
    {
        MosquittoBroker.Require();
        var host = new BrokerHost();
        if (await host.IpAsync($"netns add {host.name}") != 0)
        {
            Assert.Skip("no right to make a network namespace (CAP_NET_ADMIN); the test of the silent line covers what can be covered without");
        }

        await host.LayAsync(SensorCable, 90);
        await host.LayAsync(WorkerCable, 91);
        host.Broker = new MosquittoBroker { Host = $"10.90.{host.net}.2", Namespace = host.name };
        await host.Broker.StartAsync();
        return host;
    }

    /// <summary>Pulls the worker's cable out of the broker's host: packets vanish, nobody is told.</summary>
    public Task CutAsync() => MustAsync($"-n {name} link set {name}{WorkerCable}1 down");

    public Task MendAsync() => MustAsync($"-n {name} link set {name}{WorkerCable}1 up");

    public async ValueTask DisposeAsync()
    {
        await IpAsync($"link del {name}{SensorCable}0");
        await IpAsync($"link del {name}{WorkerCable}0");
        await IpAsync($"netns del {name}");
    }

    private async Task LayAsync(string cable, int first)
    {
        var (near, far) = ($"{name}{cable}0", $"{name}{cable}1");
        await MustAsync($"link add {near} type veth peer name {far}");
        await MustAsync($"link set {far} netns {name}");
        await MustAsync($"addr add 10.{first}.{net}.1/24 dev {near}");
        await MustAsync($"link set {near} up");
        await MustAsync($"-n {name} addr add 10.{first}.{net}.2/24 dev {far}");
        await MustAsync($"-n {name} link set {far} up");
    }

    private async Task MustAsync(string arguments) => Assert.Equal(0, await IpAsync(arguments));

    private async Task<int> IpAsync(string arguments)
    {
        if (!File.Exists("/usr/sbin/ip") && !File.Exists("/sbin/ip"))
        {
            return -1;
        }

        using var run = Process.Start(new ProcessStartInfo("ip", arguments.Split(' ')) { RedirectStandardError = true })!;
        await run.WaitForExitAsync();
        return run.ExitCode;
    }
}
