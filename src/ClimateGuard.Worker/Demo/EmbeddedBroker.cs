using System.Net;
using System.Net.Sockets;
using MQTTnet;
using MQTTnet.Server;

namespace ClimateGuard.Worker.Demo;

/// <summary>A broker inside the demo, on loopback only; any MQTT client of this computer may listen in.</summary>
/// <remarks>A client must bring a client id: this broker names nobody.</remarks>
internal sealed class EmbeddedBroker : IAsyncDisposable
{
    private readonly MqttServer server;

    private EmbeddedBroker(MqttServer server, int port)
    {
        this.server = server;
        Port = port;
    }

    public int Port { get; }

    public static async Task<EmbeddedBroker> StartAsync()
    {
        var port = FreePort();
        var options = new MqttServerOptionsBuilder()
            .WithDefaultEndpoint()
            .WithDefaultEndpointBoundIPAddress(IPAddress.Loopback)
            .WithDefaultEndpointBoundIPV6Address(IPAddress.None)
            .WithDefaultEndpointPort(port)
            .WithPersistentSessions()
            .WithMaxPendingMessagesPerClient(100_000)
            .Build();
        var server = new MqttServerFactory().CreateMqttServer(options);
        await server.StartAsync();
        return new EmbeddedBroker(server, port);
    }

    public async ValueTask DisposeAsync()
    {
        await server.StopAsync();
        server.Dispose();
    }

    private static int FreePort()
    {
        // 1883 is left to a broker that the shop may run.
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
