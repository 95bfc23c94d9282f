using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Threading.Channels;

namespace ClimateGuard.SystemTests.Support;

/// <summary>
/// A wire between client and broker that a test can cut, as a power cut or a kill would: no goodbye, both ends find it broken. It can fall silent
/// as well, as a pulled cable does: both ends believe the connection stands. And it can be long and thin.
/// </summary>
public sealed class CuttableWire : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly ConcurrentBag<Socket> sockets = [];
    private readonly CancellationTokenSource stop = new();
    private readonly int target;
    private readonly Task accepting;
    private readonly TimeSpan latency;
    private readonly int bytesPerSecond;
    private volatile bool broken;
    private volatile TaskCompletionSource? silence;

    /// <param name="target">The port at the other end.</param>
    /// <param name="latency">How long each byte is under way, each way.</param>
    /// <param name="bytesPerSecond">How much passes, each way; 0 for no limit.</param>
    public CuttableWire(int target, TimeSpan latency = default, int bytesPerSecond = 0)
    {
        this.target = target;
        this.latency = latency;
        this.bytesPerSecond = bytesPerSecond;
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

    /// <summary>Nothing passes any more and nobody is told, until <see cref="Mend"/>; then what the ends still send passes.</summary>
    public void FallSilent() => silence = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);

    public void Mend()
    {
        broken = false;
        silence?.TrySetResult();
        silence = null;
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        Mend();
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

    private async Task CopyAsync(Socket from, Socket to)
    {
        var underWay = Channel.CreateBounded<(long Due, byte[] Bytes)>(16);
        var delivering = DeliverAsync(underWay.Reader, to);
        var buffer = new byte[bytesPerSecond > 0 ? 2048 : 16 * 1024];
        try
        {
            int count;
            while ((count = await from.ReceiveAsync(buffer)) > 0)
            {
                await underWay.Writer.WriteAsync((Environment.TickCount64 + (long)latency.TotalMilliseconds, buffer[..count]), stop.Token);
            }
        }
        catch (Exception failed) when (failed is SocketException or ObjectDisposedException or OperationCanceledException)
        {
            // Cut.
        }

        underWay.Writer.Complete();
        await delivering;
    }

    private async Task DeliverAsync(ChannelReader<(long Due, byte[] Bytes)> underWay, Socket to)
    {
        try
        {
            await foreach (var (due, bytes) in underWay.ReadAllAsync(stop.Token))
            {
                var wait = due - Environment.TickCount64 + (bytesPerSecond > 0 ? bytes.Length * 1000L / bytesPerSecond : 0);
                if (wait > 0)
                {
                    await Task.Delay((int)wait, stop.Token);
                }

                if (silence is { } silent)
                {
                    await silent.Task.WaitAsync(stop.Token);
                }

                await to.SendAsync(bytes);
            }

            to.Shutdown(SocketShutdown.Send);
        }
        catch (Exception failed) when (failed is SocketException or ObjectDisposedException or OperationCanceledException)
        {
            // Cut: the other half is to notice, also when it waits to write.
            to.Close(0);
        }
    }
}
