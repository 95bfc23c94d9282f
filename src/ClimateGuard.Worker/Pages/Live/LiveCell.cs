using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Pages.Live;

/// <summary>The newest snapshot of the cell, for every open page. Safe across threads.</summary>
/// <param name="time">The clock that tells how old the newest snapshot is; monotonic time only.</param>
public sealed class LiveCell(TimeProvider time)
{
    private volatile Shown? shown;

    /// <summary>Shadow mode: nothing is sent to machines.</summary>
    public bool Shadow { get; init; }

    /// <summary>Raised after each <see cref="Show"/>, on the thread that called it. Handlers return at once and never throw.</summary>
    public event Action? Changed;

    /// <summary>The newest snapshot, or null before the first.</summary>
    public CellSnapshot? Snapshot => shown?.Snapshot;

    /// <summary>Whether the broker is connected, or null when nobody said.</summary>
    public bool? BrokerConnected => shown?.BrokerConnected;

    /// <summary>How long ago the newest snapshot was shown, by monotonic time; zero before the first.</summary>
    public TimeSpan Age => shown is { } newest ? time.GetElapsedTime(newest.At) : TimeSpan.Zero;

    /// <summary>Shows a snapshot on every open page. Cheap: may be called as often as the worker likes.</summary>
    /// <param name="snapshot">The snapshot.</param>
    /// <param name="brokerConnected">Whether the broker is connected, or null when not known.</param>
    public void Show(CellSnapshot snapshot, bool? brokerConnected = null)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        shown = new Shown(snapshot, brokerConnected, time.GetTimestamp());
        Changed?.Invoke();
    }

    private sealed record Shown(CellSnapshot Snapshot, bool? BrokerConnected, long At);
}
