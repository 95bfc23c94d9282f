using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Live;

/// <summary>What one open browser page sees of the cell: at most four times a second, and never older than it admits.</summary>
/// <remarks>
/// One for each circuit, so that header and page show the same moment. Many snapshots within a quarter of a second become one.
/// The timer runs only while someone listens, so a page that is only prerendered starts none. Safe across threads.
/// </remarks>
public sealed class LiveView : IDisposable
{
    /// <summary>The least time between two updates.</summary>
    public static readonly TimeSpan LeastBetween = TimeSpan.FromMilliseconds(250);

    /// <summary>A worker that is silent for longer is not believed any more.</summary>
    public static readonly TimeSpan OldAfter = TimeSpan.FromSeconds(15);

    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(1);

    private readonly Lock gate = new();
    private readonly LiveCell cell;
    private readonly TimeProvider time;
    private ITimer? timer;
    private Action? listeners;
    private long lastUpdate;
    private bool waiting;
    private bool disposed;

    /// <summary>A view of the cell.</summary>
    public LiveView(LiveCell cell, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(cell);
        this.cell = cell;
        this.time = time;
        Take();
    }

    /// <summary>Raised when <see cref="Snapshot"/>, <see cref="BrokerConnected"/> or <see cref="IsOld"/> changed.</summary>
    public event Action? Changed
    {
        add
        {
            lock (gate)
            {
                listeners += value;
                Start();
            }
        }

        remove
        {
            lock (gate)
            {
                listeners -= value;
            }
        }
    }

    /// <summary>Shadow mode: nothing is sent to machines.</summary>
    public bool Shadow => cell.Shadow;

    /// <summary>The snapshot to show, or null before the first.</summary>
    public CellSnapshot? Snapshot { get; private set; }

    /// <summary>Whether the broker is connected, or null when not known.</summary>
    public bool? BrokerConnected { get; private set; }

    /// <summary>The worker has shown nothing new for <see cref="OldAfter"/>: nothing on the page may be relied on.</summary>
    public bool IsOld { get; private set; }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (gate)
        {
            disposed = true;
            cell.Changed -= OnNews;
            timer?.Dispose();
            listeners = null;
        }
    }

    private void Start()
    {
        if (timer is null && !disposed)
        {
            lastUpdate = time.GetTimestamp();
            timer = time.CreateTimer(_ => OnTimer(), null, Heartbeat, Heartbeat);
            cell.Changed += OnNews;
        }
    }

    private void OnNews()
    {
        lock (gate)
        {
            if (waiting || disposed)
            {
                return;
            }

            waiting = true;
            var left = LeastBetween - time.GetElapsedTime(lastUpdate);
            timer?.Change(left > TimeSpan.Zero ? left : TimeSpan.Zero, Heartbeat);
        }
    }

    private void OnTimer()
    {
        Action? tell;
        lock (gate)
        {
            waiting = false;
            tell = !disposed && Take() ? listeners : null;
            if (tell is not null)
            {
                lastUpdate = time.GetTimestamp();
            }
        }

        tell?.Invoke();
    }

    private bool Take()
    {
        var (snapshot, connected, old) = (cell.Snapshot, cell.BrokerConnected, cell.Age > OldAfter);
        if (ReferenceEquals(snapshot, Snapshot) && connected == BrokerConnected && old == IsOld)
        {
            return false;
        }

        (Snapshot, BrokerConnected, IsOld) = (snapshot, connected, old);
        return true;
    }
}
