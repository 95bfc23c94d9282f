using System.Buffers.Binary;
using System.Net;
using System.Net.Sockets;
using System.Text;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests;

/// <summary>What the worker asks of a broker when it connects, read from the wire (MQTT 5.0, 3.1).</summary>
public sealed class SessionTests
{
    private const byte CleanStart = 0x02;

    [Fact]
    public async Task The_worker_asks_for_its_old_session_for_its_expiry_and_for_no_more_messages_than_it_can_hold()
    {
        using var broker = new TcpListener(IPAddress.Loopback, 0);
        broker.Start();
        var settings = new BrokerSettings { Port = ((IPEndPoint)broker.LocalEndpoint).Port, SessionExpirySeconds = 1234, ReceiveMaximum = 777 };
        await using var worker = new WorkerLink(settings);
        await worker.Link.StartAsync(CancellationToken.None);
        using var connection = await broker.AcceptSocketAsync();
        var packet = new byte[1024];
        var count = await connection.ReceiveAsync(packet);

        var connect = Connect.Read(packet.AsSpan(0, count));
        Assert.Equal(5, connect.Level);
        Assert.Equal(0, connect.Flags & CleanStart);
        Assert.Equal(15, connect.KeepAliveSeconds);
        Assert.Equal(1234u, connect.SessionExpirySeconds);
        Assert.Equal(777, connect.ReceiveMaximum);
        Assert.Equal(131_072u, connect.MaximumPacketBytes);
        Assert.Equal("climateguard-cell4", connect.ClientId);
    }

    /// <summary>The fields of a CONNECT packet that matter here.</summary>
    private sealed record Connect(
        int Level, int Flags, int KeepAliveSeconds, uint SessionExpirySeconds, int ReceiveMaximum, uint MaximumPacketBytes, string ClientId)
    {
        public static Connect Read(ReadOnlySpan<byte> packet)
        {
            Assert.Equal(0x10, packet[0]);
            var body = packet[(packet[1] < 0x80 ? 2 : 3)..];
            Assert.Equal("MQTT", Encoding.UTF8.GetString(body[2..6]));
            var (expiry, receive, most) = (0u, 0, 0u);
            Assert.InRange(body[10], 0, 127);
            var properties = body.Slice(11, body[10]);
            while (!properties.IsEmpty)
            {
                var length = properties[0] switch
                {
                    0x11 or 0x27 => 5,
                    0x21 or 0x22 => 3,
                    0x17 or 0x19 => 2,
                    var other => throw new InvalidOperationException($"property {other} is not expected in a CONNECT of the worker"),
                };
                expiry = properties[0] == 0x11 ? BinaryPrimitives.ReadUInt32BigEndian(properties[1..]) : expiry;
                most = properties[0] == 0x27 ? BinaryPrimitives.ReadUInt32BigEndian(properties[1..]) : most;
                receive = properties[0] == 0x21 ? BinaryPrimitives.ReadUInt16BigEndian(properties[1..]) : receive;
                properties = properties[length..];
            }

            var payload = body[(11 + body[10])..];
            var clientId = Encoding.UTF8.GetString(payload.Slice(2, BinaryPrimitives.ReadUInt16BigEndian(payload)));
            return new(body[6], body[7], BinaryPrimitives.ReadUInt16BigEndian(body[8..]), expiry, receive, most, clientId);
        }
    }
}
