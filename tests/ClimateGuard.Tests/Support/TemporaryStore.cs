using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;

namespace ClimateGuard.Tests.Support;

/// <summary>A folder for a store that goes away with the test, a clock that stands still, and what was logged.</summary>
public sealed class TemporaryStore : IDisposable, ILogger
{
    private readonly List<string> logged = [];

    private readonly string root = Path.Combine(Path.GetTempPath(), "climateguard-test-" + Guid.NewGuid().ToString("N"));

    /// <summary>The folder of the store; neither it nor the one above it is there yet.</summary>
    public string Folder => Path.Combine(root, "plant", "store");

    public string ReadingsPath => Path.Combine(Folder, "readings.db");

    public string LedgerPath => Path.Combine(Folder, "ledger.db");

    /// <summary>A file beside the store; its folder is there.</summary>
    public string FileOf(string name) => Path.Combine(Directory.CreateDirectory(root).FullName, name);

    public FakeTimeProvider Clock { get; } = new(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero));

    /// <summary>Warnings and errors, as they would read in the log.</summary>
    public IReadOnlyList<string> Complaints => logged;

    public SqliteStorage Storage => new() { Folder = Folder };

    /// <summary>A cell with sensors s0, s1, ….</summary>
    public static Cell CellWith(int sensors) => CellOf([.. Enumerable.Range(0, sensors).Select(n => $"s{n}")]);

    /// <summary>A cell with sensors of these names.</summary>
    public static Cell CellOf(params string[] sensors) => new(new CellDescription
    {
        Id = "cell1",
        Name = "Cell 1",
        Zones = [new Zone { Id = "z" }],
        Sensors = [.. sensors.Select(id => new Sensor { Id = id, Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air })],
    });

    public SqliteReadings OpenReadings(Cell cell, SqliteStorage? storage = null) =>
        SqliteReadings.Open(storage ?? Storage, cell, Clock, this);

    public SqliteLedger OpenLedger() => SqliteLedger.Open(Storage, "cell1", Clock, this);

    public void Dispose()
    {
        if (Directory.Exists(root))
        {
            Directory.Delete(root, recursive: true);
        }
    }

    IDisposable? ILogger.BeginScope<TState>(TState state) => null;

    bool ILogger.IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Warning;

    void ILogger.Log<TState>(
        LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
    {
        if (logLevel >= LogLevel.Warning)
        {
            logged.Add(formatter(state, exception));
        }
    }
}
