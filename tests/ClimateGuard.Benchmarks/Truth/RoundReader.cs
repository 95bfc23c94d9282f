using System.Threading.Channels;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.Truth;

/// <summary>Hands the loop a whole round of arrivals at once, and knows when it has been worked through: the loop then asks for more.</summary>
internal sealed class RoundReader : ChannelReader<Arrival>
{
    private readonly Queue<Arrival> round = new();
    private TaskCompletionSource<bool> more = New();
    private TaskCompletionSource idle = new();

    public void Add(Arrival arrival) => round.Enqueue(arrival);

    /// <summary>Lets the loop have the round; the task ends when it has been decided and told.</summary>
    public Task RunAsync()
    {
        idle = new TaskCompletionSource();
        var release = more;
        more = New();
        release.SetResult(true);
        return idle.Task;
    }

    public override bool TryRead(out Arrival item) => round.TryDequeue(out item);

    public override ValueTask<bool> WaitToReadAsync(CancellationToken cancellationToken = default)
    {
        idle.TrySetResult();
        return new ValueTask<bool>(more.Task.WaitAsync(cancellationToken));
    }

    private static TaskCompletionSource<bool> New() => new();
}
