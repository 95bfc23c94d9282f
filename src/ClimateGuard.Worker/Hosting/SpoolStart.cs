using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Sqlite;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Brings what an earlier run left in the spool into InfluxDB as soon as this worker decides for the cell, also when no reading comes.</summary>
internal sealed class SpoolStart(InfluxReadings readings, CellLease lease, ILogger<SpoolStart> logger) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            while (!lease.Holds || !await StartedAsync(stoppingToken))
            {
                await Task.Delay(Pause, stoppingToken);
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            logger.LogDebug("Stopped before this worker decided");
        }
    }

    private async Task<bool> StartedAsync(CancellationToken cancellation)
    {
        try
        {
            await readings.StartAsync(cancellation);
            return true;
        }
        catch (StoreUnavailableException fault)
        {
            logger.LogError("{Reason}", fault.Message);
            return false;
        }
    }
}
