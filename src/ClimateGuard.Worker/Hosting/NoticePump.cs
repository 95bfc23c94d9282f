using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Edges.Notices;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Runs the channels to people, and tells the others when one of them does not get through.</summary>
internal sealed class NoticePump(
    IEnumerable<NoticeChannel> channels, IEnumerable<IAlertChannel> listeners, MqttOutlooks mqtt, ILedgerStore ledger, CellLease lease, WorkerPlan plan,
    ILogger<NoticePump> logger) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(10);

    private readonly NoticeChannel[] running = [.. channels];
    private readonly IAlertChannel[] told = [mqtt, .. listeners];
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
                        await TellAsync(alarm, stoppingToken);
                    }
                }
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            return;
        }
    }

    private async Task TellAsync(AlertRaised alarm, CancellationToken cancellation)
    {
        logger.Log(alarm.Alert.Cleared ? LogLevel.Information : LogLevel.Error, "{Text}", alarm.Alert.Text);
        try
        {
            if (LedgerLines.Of(alarm) is { } line)
            {
                await ledger.AppendAsync([line], cancellation);
            }

            foreach (var listener in told)
            {
                await listener.TellAsync([alarm], cancellation);
            }
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            logger.LogError("The alarm of a channel could not be told: {Reason}", failure.Message);
        }
    }
}
