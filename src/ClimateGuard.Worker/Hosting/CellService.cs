using ClimateGuard.Edges.Mqtt;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Keeps the link to the broker and the loop of the cell going for as long as the worker lives.</summary>
internal sealed class CellService(BrokerLink link, MqttPermitLines lines, CellLoop loop, ILogger<CellService> logger) : BackgroundService
{
    public override async Task StopAsync(CancellationToken cancellationToken)
    {
        await base.StopAsync(cancellationToken);
        await link.StopAsync(cancellationToken);
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        lines.Follow(() => loop.Snapshot);
        await link.StartAsync(stoppingToken);
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await loop.RunAsync(stoppingToken);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception failure)
            {
                // A defect must not silence the whole cell: what was in this round is not acknowledged, so the broker sends it again.
                logger.LogCritical(failure, "A round of the cell failed; the outlooks run out if this goes on. Please report this with the lines above.");
                await Task.Delay(TimeSpan.FromSeconds(1), stoppingToken);
            }
        }
    }
}
