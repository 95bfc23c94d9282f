using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.Benchmarks;

/// <summary>Time of one row through the history, beside a bare loop over one prepared INSERT: the ceiling of the same run.</summary>
/// <remarks>Rows come interleaved by time, one of each series in turn, as sensors send them. Each iteration fills a new file.</remarks>
[SimpleJob(RunStrategy.Monitoring, launchCount: 1, warmupCount: 1, iterationCount: 3)]
[MemoryDiagnoser]
public class SqliteAppendBenchmarks : IDisposable
{
    private const int Rows = 200_000;

    private readonly string folder = Path.Combine(Path.GetTempPath(), "climateguard-bench-" + Guid.NewGuid().ToString("N"));
    private TrustedReading[] readings = [];
    private SqliteReadings store = null!;
    private SqliteConnection bare = null!;
    private SqliteCommand insert = null!;

    /// <summary>Readings in one transaction.</summary>
    [Params(1, 100, 1_000, 10_000)]
    public int Batch { get; set; }

    /// <summary>How many sensors send.</summary>
    [Params(33, 1_000)]
    public int Series { get; set; }

    /// <summary>Empty files, and the readings ready in memory.</summary>
    [IterationSetup]
    public void Open()
    {
        Directory.CreateDirectory(folder);
        readings = [.. Enumerable.Range(0, Rows).Select(n => new TrustedReading(
            new Reading(n % Series, 1_770_000_000_000 + (n / Series * 10_000L), 20 + (n % 977 * 0.001)), 20 + (n % 977 * 0.001), Trust.Accepted, TrustReason.None))];
        var cell = new Cell(new CellDescription
        {
            Id = "c",
            Name = "c",
            Zones = [new Zone { Id = "z" }],
            Sensors = [.. Enumerable.Range(0, Series).Select(n =>
                new Sensor { Id = $"s{n}", Quantity = SensorQuantity.Temperature, Place = SensorPlace.Air })],
        });
        store = SqliteReadings.Open(new SqliteStorage { Folder = folder }, cell, TimeProvider.System, NullLogger.Instance);
        bare = new SqliteConnection($"Data Source={Path.Combine(folder, "bare.db")};Pooling=False");
        bare.Open();
        foreach (var sql in (ReadOnlySpan<string>)
            [
                "PRAGMA journal_mode = WAL", "PRAGMA synchronous = NORMAL",
                "CREATE TABLE r(sensor INTEGER, t INTEGER, value REAL, PRIMARY KEY(sensor, t)) WITHOUT ROWID",
            ])
        {
            using var command = bare.CreateCommand();
            command.CommandText = sql;
            command.ExecuteNonQuery();
        }

        insert = bare.CreateCommand();
        insert.CommandText = "INSERT INTO r VALUES($sensor, $t, $value)";
        insert.Parameters.AddWithValue("$sensor", 0L);
        insert.Parameters.AddWithValue("$t", 0L);
        insert.Parameters.AddWithValue("$value", 0.0);
        insert.Prepare();
    }

    /// <summary>Closes and removes the files.</summary>
    [IterationCleanup]
    public void Dispose()
    {
        store.Dispose();
        insert.Dispose();
        bare.Dispose();
        Directory.Delete(folder, recursive: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>The history.</summary>
    [Benchmark(OperationsPerInvoke = Rows)]
    public async Task History()
    {
        for (var at = 0; at < Rows; at += Batch)
        {
            await store.AppendAsync(readings.AsMemory(at, Math.Min(Batch, Rows - at)), CancellationToken.None);
        }
    }

    /// <summary>The ceiling: one prepared INSERT, in order of arrival, no check of anything.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Rows)]
    public void BareInsert()
    {
        for (var at = 0; at < Rows; at += Batch)
        {
            using var transaction = bare.BeginTransaction();
            insert.Transaction = transaction;
            for (var n = at; n < Math.Min(at + Batch, Rows); n++)
            {
                insert.Parameters[0].Value = (long)readings[n].Raw.Sensor;
                insert.Parameters[1].Value = readings[n].Raw.EpochMilliseconds;
                insert.Parameters[2].Value = readings[n].Value;
                insert.ExecuteNonQuery();
            }

            transaction.Commit();
        }
    }
}
