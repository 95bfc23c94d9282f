using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>An event that someone in this process waits for.</summary>
internal sealed class PostedEvent(CellEvent happened)
{
    private readonly TaskCompletionSource<IReadOnlyList<Decision>> done = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private IReadOnlyList<Decision> decisions = [];

    public CellEvent Happened { get; } = happened;

    public Task<IReadOnlyList<Decision>> Done => done.Task;

    public void Decided(IReadOnlyList<Decision> decided) => decisions = decided;

    public void Complete() => done.TrySetResult(decisions);
}

/// <summary>An event of one round, with who waits for it, or null.</summary>
internal readonly record struct EventWork(CellEvent Happened, PostedEvent? Posted);
