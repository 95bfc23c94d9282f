using ClimateGuard.Edges.Influx;
using ClimateGuard.Plant;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.SystemTests.Influx;

/// <summary>The same contract as of the embedded store, against a real influxd.</summary>
public sealed class InfluxReadingsContractTests(InfluxReadingsContractTests.Shared shared) : ReadingStoreContract, IClassFixture<InfluxReadingsContractTests.Shared>
{
    private readonly TemporaryStore place = new();
    private InfluxSettings settings = null!;
    private InfluxReadings readings = null!;

    protected override async Task<IReadingStore> OpenAsync(Cell cell)
    {
        settings = await (await shared.ServerAsync()).NewDatabaseAsync();
        return Open(cell);
    }

    protected override async Task<IReadingStore> ReopenAsync(Cell cell)
    {
        await readings.DisposeAsync();
        return Open(cell);
    }

    protected override async Task<IReadOnlyList<(long EpochMilliseconds, double Raw, TrustReason Reason)>> SetAsideAsync(string sensorId)
    {
        var found = new List<(long, double, TrustReason)>();
        await foreach (var row in readings.RowsAsync(sensorId, DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(100), CancellationToken.None))
        {
            if (row.Trust == Trust.Quarantined)
            {
                found.Add((row.EpochMilliseconds, row.Raw, row.Reason));
            }
        }

        return found;
    }

    protected override async Task<IReadOnlyList<UnreadableMessage>> UnreadableAsync() =>
        [.. (await readings.NewestUnreadableAsync(100, CancellationToken.None)).Select(kept => kept.Message)];

    protected override async ValueTask CloseAsync()
    {
        await (readings?.DisposeAsync() ?? ValueTask.CompletedTask);
        place.Dispose();
    }

    private InfluxReadings Open(Cell cell) => readings = InfluxReadings.Open(settings, place.Folder, cell, place.Clock, place);

    /// <summary>One influxd for all of them; each test has a database of its own.</summary>
    public sealed class Shared : IAsyncDisposable
    {
        private InfluxServer? server;

        public async Task<InfluxServer> ServerAsync() => server ??= await InfluxServer.StartNewAsync();

        public ValueTask DisposeAsync() => server?.DisposeAsync() ?? ValueTask.CompletedTask;
    }
}
