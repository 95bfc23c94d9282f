using System.Diagnostics;
using ClimateGuard.Edges.Influx;
using ClimateGuard.Plant;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>One store on one database of a real influxd, and readings to put in.</summary>
internal sealed class InfluxBench : IAsyncDisposable
{
    public static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private InfluxBench(InfluxServer server, InfluxSettings settings)
    {
        (Server, Settings) = (server, settings);
        Store = Open();
    }

    public InfluxServer Server { get; }

    public InfluxSettings Settings { get; set; }

    public TemporaryStore Place { get; } = new();

    public InfluxReadings Store { get; private set; }

    public string SpoolFolder => Path.Combine(Place.Folder, "influx-spool");

    public string Database => Settings.Bucket.Split('/')[0];

    public static async Task<InfluxBench> StartAsync(Func<InfluxSettings, InfluxSettings>? change = null)
    {
        var server = await InfluxServer.StartNewAsync();
        var settings = await server.NewDatabaseAsync();
        return new InfluxBench(server, change?.Invoke(settings) ?? settings);
    }

    public static TrustedReading At(int sensor, long milliseconds, double value) => new(
        new Reading(sensor, Begin.ToUnixTimeMilliseconds() + milliseconds, value), value, Trust.Accepted, TrustReason.None);

    /// <summary>One reading of each of four sensors a second.</summary>
    public static TrustedReading[] Second(int second) => [.. Enumerable.Range(0, 4).Select(sensor => At(sensor, (second * 1_000L) + sensor, Value(sensor, second)))];

    public static double Value(int sensor, int second) => 20 + sensor + (second * 0.001);

    public InfluxReadings Open() => InfluxReadings.Open(Settings, Place.Folder, TemporaryStore.CellWith(4), TimeProvider.System, Place);

    /// <summary>As a restart of the worker: what is on disk is there, what was in memory is not.</summary>
    public async Task ReopenAsync()
    {
        await Store.DisposeAsync();
        Store = Open();
    }

    public async Task AppendSecondsAsync(int from, int to)
    {
        for (var second = from; second < to; second++)
        {
            await Store.AppendAsync(Second(second), CancellationToken.None);
        }
    }

    public async Task UntilAsync(Func<bool> wanted, string what, double seconds = 60)
    {
        var patience = Stopwatch.StartNew();
        while (!wanted())
        {
            Assert.True(patience.Elapsed.TotalSeconds < seconds, $"not within {seconds} s: {what}; {Store.Health()}; {string.Join('\n', Complaints.TakeLast(5))}");
            await Task.Delay(20);
        }
    }

    public Task UntilDrainedAsync() => UntilAsync(() => Store.Health().SpooledBatches == 0 && Store.Health().OldestSpooled is null, "the spool is empty");

    /// <summary>Every reading of these seconds is there exactly once with its value, and nothing else is.</summary>
    public async Task HasExactlyAsync(int seconds)
    {
        for (var sensor = 0; sensor < 4; sensor++)
        {
            var expected = Enumerable.Range(0, seconds).Select(second => new StoredReading(
                Begin.ToUnixTimeMilliseconds() + (second * 1_000L) + sensor, Value(sensor, second), Value(sensor, second), Trust.Accepted, TrustReason.None));
            Assert.Equal(expected, await RowsAsync($"s{sensor}"));
        }
    }

    public async Task<List<StoredReading>> RowsAsync(string sensor)
    {
        var rows = new List<StoredReading>();
        await foreach (var row in Store.RowsAsync(sensor, Begin.AddDays(-400), Begin.AddDays(400), CancellationToken.None))
        {
            rows.Add(row);
        }

        return rows;
    }

    public IReadOnlyList<string> Complaints => [.. Place.Complaints];

    public async ValueTask DisposeAsync()
    {
        await Store.DisposeAsync();
        await Server.DisposeAsync();
        Place.Dispose();
    }
}
