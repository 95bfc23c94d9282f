using ClimateGuard.Edges.Patience;
using ClimateGuard.Edges.Sqlite;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Beside the cell: checks the older months after the start, clears what is too old once a day, and watches the disk.</summary>
internal sealed class HistoryUpkeep(
    DiskSpace space, AlarmTelling telling, CellLease lease, WorkerPlan plan, ILogger<HistoryUpkeep> logger,
    SqliteReadings? readings = null, FullDiskReadings? keeping = null) : BackgroundService
{
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan Day = TimeSpan.FromDays(1);

    private readonly StoreAlarms alarms = new();

    protected override Task ExecuteAsync(CancellationToken stoppingToken) => Task.WhenAll(
        UntilStoppedAsync(CheckAndClearAsync, stoppingToken), UntilStoppedAsync(WatchAsync, stoppingToken));

    private async Task CheckAndClearAsync(CancellationToken stopping)
    {
        if (readings is null)
        {
            // Readings are in InfluxDB, which looks after itself.
            await Task.Delay(Timeout.Infinite, stopping);
            return;
        }

        await readings.CheckOlderAsync(stopping);
        while (true)
        {
            if (lease.Refusal is null)
            {
                await readings.ClearAsync(stopping);
                await Task.Delay(Day, stopping);
            }

            await Task.Delay(Look, stopping);
        }
    }

    private async Task WatchAsync(CancellationToken stopping)
    {
        while (true)
        {
            await Task.Delay(Look, stopping);
            if (lease.Refusal is not null)
            {
                continue;
            }

            foreach (var alarm in alarms.Step(space.UsedShare, keeping?.Gap, readings?.Health().Damaged ?? [], plan.CellTime.GetUtcNow()))
            {
                await telling.TellAsync(alarm, stopping);
            }
        }
    }

    private async Task UntilStoppedAsync(Func<CancellationToken, Task> work, CancellationToken stopping)
    {
        while (!stopping.IsCancellationRequested)
        {
            try
            {
                await work(stopping);
            }
            catch (OperationCanceledException) when (stopping.IsCancellationRequested)
            {
                return;
            }
            catch (Exception failure)
            {
                logger.LogError("The upkeep of the history failed and is tried again in an hour: {Reason}", failure.Message);
                await Task.Delay(TimeSpan.FromHours(1), stopping).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }
}
