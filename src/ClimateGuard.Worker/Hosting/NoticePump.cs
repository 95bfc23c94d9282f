using ClimateGuard.Edges.Notices;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Runs the channels to people, and tells the others when one of them does not get through.</summary>
internal sealed class NoticePump(
    IEnumerable<NoticeChannel> channels, AlarmTelling telling, CellLease lease, WorkerPlan plan) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(10);

    private readonly NoticeChannel[] running = [.. channels];
    private readonly ChannelAlarms alarms = new();

    /// <summary>Only the worker that decides for the cell writes to people; one that stands by keeps silent.</summary>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            if (lease.Refusal is null)
            {
                await RunWhileDecidingAsync(stoppingToken);
            }

            await Task.Delay(Pause, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task RunWhileDecidingAsync(CancellationToken stopping)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stopping);
        var works = Task.WhenAll([.. running.Select(channel => channel.RunAsync(ending.Token)), WatchAsync(ending.Token)]);
        while (lease.Refusal is null && !stopping.IsCancellationRequested && !works.IsCompleted)
        {
            await Task.Delay(Pause, stopping).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        await ending.CancelAsync();
        await works;
    }

    private async Task WatchAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Look);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
            {
                foreach (var channel in running)
                {
                    if (alarms.Step(channel.Health(), DateTimeOffset.UtcNow, plan.CellTime.GetUtcNow()) is { } alarm)
                    {
                        await telling.TellAsync(alarm, stoppingToken);
                    }
                }
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            return;
        }
    }
}
