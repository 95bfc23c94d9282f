using ClimateGuard.Edges.Influx;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;
using Serilog;
using Serilog.Extensions.Logging;

namespace ClimateGuard.Worker.Hosting;

/// <summary>The store of the settings, opened for a verb that comes and goes; a worker may have it open too.</summary>
internal sealed class ReadingStoreAtHand : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    private readonly Func<ValueTask> close;
    private readonly SerilogLoggerFactory logging;

    private ReadingStoreAtHand(IReadingStore readings, Func<ValueTask> close, SerilogLoggerFactory logging, string folder)
    {
        this.close = close;
        this.logging = logging;
        Readings = readings;
        Folder = folder;
    }

    public IReadingStore Readings { get; }

    /// <summary>The folder of the store, for what is remembered beside it.</summary>
    public string Folder { get; }

    /// <summary>How many rows were new and are in the store since the opening.</summary>
    public Func<long> RowsWritten { get; private init; } = () => 0;

    /// <summary>Waits while what was given to the store is still going in, unless cancelled; says what waits on disk after that and why, or null.</summary>
    public Func<CancellationToken, Task<string?>> SettleAsync { get; private init; } = _ => Task.FromResult<string?>(null);

    /// <summary>Opens the store; makes it when it is not there.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be used.</exception>
    public static ReadingStoreAtHand Open(WorkerSettings settings, Cell cell)
    {
        var logging = new SerilogLoggerFactory(new LoggerConfiguration().MinimumLevel.Warning().WriteTo.Console(
            standardErrorFromLevel: Serilog.Events.LogEventLevel.Verbose, formatProvider: System.Globalization.CultureInfo.InvariantCulture).CreateLogger());
        try
        {
            return settings.InfluxInUse is { } influx ? OpenInflux(settings, influx, cell, logging) : OpenSqlite(settings, cell, logging);
        }
        catch
        {
            logging.Dispose();
            throw;
        }
    }

    /// <summary>Opens a store that is there, to read from it.</summary>
    /// <exception cref="StoreUnavailableException">It is not there, or cannot be used.</exception>
    public static ReadingStoreAtHand OpenToRead(WorkerSettings settings, Cell cell) =>
        settings.InfluxInUse is not null || SqliteReadings.IsThere(settings.StoragePath) ? Open(settings, cell) : throw new StoreUnavailableException(
            $"There is no history in {Path.GetFullPath(settings.StoragePath)}. Name the folder of the store in Storage:Path; the worker or an import makes the history.");

    public async ValueTask DisposeAsync()
    {
        await close();
        logging.Dispose();
    }

    private static ReadingStoreAtHand OpenSqlite(WorkerSettings settings, Cell cell, SerilogLoggerFactory logging)
    {
        // A check of the whole file is the worker's at its start.
        var storage = new SqliteStorage { Folder = settings.StoragePath, CheckAtMost = TimeSpan.Zero };
        var readings = SqliteReadings.Open(storage, cell, TimeProvider.System, logging.CreateLogger("store"));
        var before = Rows(readings);
        return new ReadingStoreAtHand(readings, () => Closed(readings), logging, settings.StoragePath) { RowsWritten = () => Rows(readings) - before };
    }

    private static ReadingStoreAtHand OpenInflux(WorkerSettings settings, InfluxSettings influx, Cell cell, SerilogLoggerFactory logging)
    {
        // A spool of its own: that of the worker has one writer, and the worker may run beside.
        var folder = Path.Combine(settings.StoragePath, "import");
        var readings = InfluxReadings.Open(influx, folder, cell, TimeProvider.System, logging.CreateLogger("store"));
        return new ReadingStoreAtHand(readings, readings.DisposeAsync, logging, settings.StoragePath)
        {
            RowsWritten = () => readings.Health() is var health ? health.Rows + health.SetAside : 0,
            SettleAsync = cancellation => SettledAsync(readings, folder, cancellation),
        };
    }

    // What an earlier import left behind goes in too, also when this one brings nothing new.
    private static async Task<string?> SettledAsync(InfluxReadings readings, string folder, CancellationToken cancellation)
    {
        await readings.StartAsync(CancellationToken.None);
        var (left, since) = (long.MaxValue, TimeProvider.System.GetTimestamp());
        while (readings.Health() is { SpooledBatches: > 0 } health)
        {
            if (health.SpooledBatches < left)
            {
                (left, since) = (health.SpooledBatches, TimeProvider.System.GetTimestamp());
            }
            else if (cancellation.IsCancellationRequested || (health.Trouble is not null && TimeProvider.System.GetElapsedTime(since) > Patience))
            {
                return $"Not in InfluxDB yet: {left} batches of rows wait on disk in {Path.GetFullPath(folder)}. Nothing is lost: "
                    + $"the same command brings them in once InfluxDB takes them. {health.Trouble}".TrimEnd();
            }

            await Task.Delay(100, CancellationToken.None);
        }

        return null;
    }

    private static ValueTask Closed(SqliteReadings readings)
    {
        readings.Dispose();
        return ValueTask.CompletedTask;
    }

    private static long Rows(SqliteReadings readings) => readings.Health() is var health ? health.Rows + health.Quarantined : 0;
}
