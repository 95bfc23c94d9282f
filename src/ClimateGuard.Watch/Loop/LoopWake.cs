using System.Threading.Channels;

namespace ClimateGuard.Watch;

/// <summary>Wakes the loop when something arrived, something was posted, or the clock ticked; keeps no more than one wait of each.</summary>
internal sealed class LoopWake : IDisposable
{
    private readonly ChannelReader<Arrival> arrivals;
    private readonly ChannelReader<PostedEvent> posted;
    private readonly PeriodicTimer ticks;
    private readonly CancellationToken cancellation;
    private Task<bool>? arrival;
    private Task<bool>? post;
    private Task<bool>? tick;

    public LoopWake(
        ChannelReader<Arrival> arrivals, ChannelReader<PostedEvent> posted, TimeSpan period, TimeProvider time, CancellationToken cancellation)
    {
        this.arrivals = arrivals;
        this.posted = posted;
        this.cancellation = cancellation;
        ticks = new PeriodicTimer(period, time);
    }

    /// <summary>Waits for the next round; false when the loop is to end.</summary>
    public async Task<bool> NextAsync()
    {
        if (cancellation.IsCancellationRequested)
        {
            return false;
        }

        tick ??= ticks.WaitForNextTickAsync(cancellation).AsTask();
        arrival ??= arrivals.WaitToReadAsync(cancellation).AsTask();
        post ??= posted.WaitToReadAsync(cancellation).AsTask();
        await Task.WhenAny(tick, arrival, post);
        if (cancellation.IsCancellationRequested)
        {
            return false;
        }

        tick = tick.IsCompleted ? null : tick;
        post = post.IsCompleted ? null : post;

        // A source that has ended leaves its completed task in place, so that the loop goes on with ticks alone.
        arrival = arrival.IsCompleted && await arrival ? null : arrival.IsCompleted ? Never : arrival;
        return true;
    }

    public void Dispose() => ticks.Dispose();

    private static Task<bool> Never { get; } = new TaskCompletionSource<bool>().Task;
}
