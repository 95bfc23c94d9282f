using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Live;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Keeps the link to the broker and the loop of the cell going for as long as this worker holds the lease of the cell.</summary>
/// <remarks>The broker is joined only with the lease: the client id, the last will and the status topic belong to the worker that decides.</remarks>
internal sealed class CellService(
    BrokerLink link, MqttPermitLines lines, CellLoop loop, LiveCell live, CellLease lease, WorkerPlan plan, IServiceProvider services,
    ILogger<CellService> logger) : BackgroundService
{
    public override async Task StopAsync(CancellationToken cancellationToken)
    {
        await base.StopAsync(cancellationToken);
        await link.StopAsync(cancellationToken);
        lease.Release();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // What is shown, not what the loop has just decided: that is not in the ledger yet.
        lines.Follow(() => live.Snapshot!);
        link.OnlyWhile(() => lease.Holds);
        try
        {
            await plan.BeforeDeciding(services, stoppingToken);
            while (!stoppingToken.IsCancellationRequested)
            {
                await lease.AcquireAsync(stoppingToken);
                await link.StartAsync(stoppingToken);
                await DecideUntilLostAsync(stoppingToken);
                if (!stoppingToken.IsCancellationRequested)
                {
                    await link.AbandonAsync();
                }
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            logger.LogDebug("The cell is stopped");
        }
    }

    private async Task DecideUntilLostAsync(CancellationToken stopping)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stopping);
        Task[] works = [lease.HoldAsync(ending.Token), LoopAsync(ending.Token)];
        await Task.WhenAny(works);
        await ending.CancelAsync();
        await Task.WhenAll(works).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    private async Task LoopAsync(CancellationToken cancellation)
    {
        while (!cancellation.IsCancellationRequested)
        {
            try
            {
                await loop.RunAsync(cancellation);
            }
            catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
            {
                return;
            }
            catch (LeaseLostException lost)
            {
                lease.Lose(lost.Message);
                return;
            }
            catch (Exception failure)
            {
                // A defect must not silence the whole cell: what was in this round is not acknowledged, so the broker sends it again.
                logger.LogCritical(failure, "A round of the cell failed; the outlooks run out if this goes on. Please report this with the lines above.");
                await Task.Delay(TimeSpan.FromSeconds(1), cancellation);
            }
        }
    }
}
