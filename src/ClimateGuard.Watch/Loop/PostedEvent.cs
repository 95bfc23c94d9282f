using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>An event that someone in this process waits for.</summary>
internal sealed class PostedEvent(CellEvent happened)
{
    private readonly TaskCompletionSource done = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public CellEvent Happened { get; } = happened;

    public Task Done => done.Task;

    public void Complete() => done.TrySetResult();
}
