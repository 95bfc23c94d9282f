using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace ClimateGuard.SystemTests.Support;

/// <summary>A wire between client and broker that a test can cut, as a power cut or a kill would: no goodbye, both ends find it broken.</summary>
public sealed class CuttableWire : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly ConcurrentBag<Socket> sockets = [];
    private readonly CancellationTokenSource stop = new();
    private readonly int target;
    private readonly Task accepting;
    private volatile bool broken;

    public CuttableWire(int target)
    {
        this.target = target;
        listener.Start();
        accepting = AcceptAsync();
    }

    public int Port => ((IPEndPoint)listener.LocalEndpoint).Port;

    /// <summary>Cuts all connections; new ones are cut at once until <see cref="Mend"/>.</summary>
    public void Cut()
    {
        broken = true;
        foreach (var socket in sockets)
        {
            socket.Close(0);
        }
    }

    public void Mend() => broken = false;

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        Cut();
        listener.Dispose();
        await accepting;
        stop.Dispose();
    }

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
            {
                var near = await listener.AcceptSocketAsync(stop.Token);
                if (broken)
                {
                    near.Close(0);
                    continue;
                }

                var far = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
                await far.ConnectAsync(IPAddress.Loopback, target);
                near.NoDelay = true;
                sockets.Add(near);
                sockets.Add(far);
                _ = CopyAsync(near, far);
                _ = CopyAsync(far, near);
            }
        }
        catch (Exception) when (stop.IsCancellationRequested)
        {
            // The end of the test.
        }
    }

    private static async Task CopyAsync(Socket from, Socket to)
    {
        var buffer = new byte[16 * 1024];
        try
        {
            int count;
            while ((count = await from.ReceiveAsync(buffer)) > 0)
            {
                await to.SendAsync(buffer.AsMemory(0, count));
            }

            to.Shutdown(SocketShutdown.Send);
        }
        catch (Exception failed) when (failed is SocketException or ObjectDisposedException)
        {
            // Cut.
        }
    }
}
