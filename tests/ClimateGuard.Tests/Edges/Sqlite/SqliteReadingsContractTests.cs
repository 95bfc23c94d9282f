using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Sqlite;

/// <summary>The contract while everything lies in the log.</summary>
public sealed class SqliteReadingsContractTests : SqliteContract
{
    protected override IReadingStore Store(SqliteReadings readings) => readings;
}

/// <summary>The contract when each batch is packed at once, so that whatever comes later comes late.</summary>
public sealed class PackedReadingsContractTests : SqliteContract
{
    protected override IReadingStore Store(SqliteReadings readings) => new PackingReadings(readings);
}

/// <summary>The contract while packing runs all the time beside appending and reading.</summary>
public sealed class PackingReadingsContractTests : SqliteContract
{
    protected override SqliteStorage Storage(SqliteStorage usual) => usual with { LooseReadings = 1 };

    protected override IReadingStore Store(SqliteReadings readings) => readings;
}

public abstract class SqliteContract : ReadingStoreContract
{
    private readonly TemporaryStore place = new();
    private SqliteReadings readings = null!;

    protected abstract IReadingStore Store(SqliteReadings readings);

    protected virtual SqliteStorage Storage(SqliteStorage usual) => usual;

    protected override Task<IReadingStore> OpenAsync(Cell cell)
    {
        readings = place.OpenReadings(cell, Storage(place.Storage));
        return Task.FromResult(Store(readings));
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
