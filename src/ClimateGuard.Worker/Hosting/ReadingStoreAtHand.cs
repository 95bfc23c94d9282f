using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Settings;
using Serilog;
using Serilog.Extensions.Logging;

namespace ClimateGuard.Worker.Hosting;

/// <summary>The store of the settings, opened for a verb that comes and goes; a worker may have it open too.</summary>
internal sealed class ReadingStoreAtHand : IDisposable
{
    private readonly SqliteReadings readings;
    private readonly SerilogLoggerFactory logging;

    private ReadingStoreAtHand(SqliteReadings readings, SerilogLoggerFactory logging, string folder)
    {
        this.readings = readings;
        this.logging = logging;
        Folder = folder;
    }

    public IReadingStore Readings => readings;

    /// <summary>The folder of the store, for what is remembered beside it.</summary>
    public string Folder { get; }

    /// <summary>How many rows were new and are on disk since the opening.</summary>
    public Func<long> RowsWritten { get; private init; } = () => 0;

    /// <summary>Opens the store; makes it when it is not there.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be used.</exception>
    public static ReadingStoreAtHand Open(WorkerSettings settings, Cell cell)
    {
        var logging = new SerilogLoggerFactory(new LoggerConfiguration().MinimumLevel.Warning().WriteTo.Console(
            standardErrorFromLevel: Serilog.Events.LogEventLevel.Verbose, formatProvider: System.Globalization.CultureInfo.InvariantCulture).CreateLogger());
        try
        {
            // A check of the whole file is the worker's at its start.
            var storage = new SqliteStorage { Folder = settings.StoragePath, CheckAtMost = TimeSpan.Zero };
            var readings = SqliteReadings.Open(storage, cell, TimeProvider.System, logging.CreateLogger("store"));
            var before = Rows(readings);
            return new ReadingStoreAtHand(readings, logging, settings.StoragePath) { RowsWritten = () => Rows(readings) - before };
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
        SqliteReadings.IsThere(settings.StoragePath) ? Open(settings, cell) : throw new StoreUnavailableException(
            $"There is no history in {Path.GetFullPath(settings.StoragePath)}. Name the folder of the store in Storage:Path; the worker or an import makes the history.");

    public void Dispose()
    {
        readings.Dispose();
        logging.Dispose();
    }

    private static long Rows(SqliteReadings readings) => readings.Health() is var health ? health.Rows + health.Quarantined : 0;
}
