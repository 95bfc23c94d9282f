using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class SqliteReadingsContractTests : ReadingStoreContract
{
    private readonly TemporaryStore place = new();
    private SqliteReadings readings = null!;

    protected override Task<IReadingStore> OpenAsync(Cell cell)
    {
        readings = place.OpenReadings(cell);
        return Task.FromResult<IReadingStore>(readings);
    }

    protected override Task<IReadingStore> ReopenAsync(Cell cell)
    {
        readings.Dispose();
        return OpenAsync(cell);
    }

    protected override async Task<IReadOnlyList<(long EpochMilliseconds, double Raw, TrustReason Reason)>> SetAsideAsync(string sensorId) =>
        [.. (await readings.ReadQuarantinedAsync(
                sensorId, DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(100), 1_000, CancellationToken.None))
            .Select(row => (row.EpochMilliseconds, row.Raw, row.Reason))];

    protected override async Task<IReadOnlyList<UnreadableMessage>> UnreadableAsync() =>
        [.. (await readings.NewestUnreadableAsync(100, CancellationToken.None)).Select(kept => kept.Message)];

    protected override ValueTask CloseAsync()
    {
        readings.Dispose();
        place.Dispose();
        return ValueTask.CompletedTask;
    }
}
