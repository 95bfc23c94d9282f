using System.Text.Json;
using ClimateGuard.Edges.Patience;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Edges.Patience;

/// <summary>A history that says it is full, in front of a real ledger.</summary>
public sealed class FullDiskReadingsTests : IDisposable
{
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();
    private readonly SqliteReadings history;
    private readonly SqliteLedger ledger;
    private readonly Stumbling inner;
    private readonly FullDiskReadings readings;

    public FullDiskReadingsTests()
    {
        history = place.OpenReadings(TemporaryStore.CellWith(1));
        ledger = place.OpenLedger();
        inner = new Stumbling(history);
        readings = new FullDiskReadings(inner, new DiskSpace(place.Folder, 0, place.Clock), ledger, place.Clock, place.Clock, place);
    }

    public void Dispose()
    {
        history.Dispose();
        ledger.Dispose();
        place.Dispose();
    }

    [Fact]
    public async Task While_the_disk_is_full_readings_are_let_go_and_counted_and_the_ledger_says_when_it_began_and_ended()
    {
        await readings.AppendAsync(new[] { At(0) }, None);
        inner.Fault = new StoreUnavailableException("full") { DiskFull = true };
        await readings.AppendAsync(new[] { At(2_000), At(1_000) }, None);
        await readings.KeepUnreadableAsync([(place.Clock.GetUtcNow(), new UnreadableMessage("a", "b", "c"))], None);
        Assert.Equal(3, readings.NotKept);
        Assert.Equal((2, 1), (readings.Gap!.Readings, readings.Gap.Unreadable));

        inner.Fault = null;
        place.Clock.Advance(TimeSpan.FromSeconds(4));
        await readings.AppendAsync(new[] { At(3_000) }, None);
        Assert.Equal(3, readings.Gap!.Readings);
        place.Clock.Advance(TimeSpan.FromSeconds(2));
        await readings.AppendAsync(new[] { At(4_000) }, None);

        Assert.Null(readings.Gap);
        Assert.Equal(2, history.Health().Rows);
        var lines = (await ledger.ReadAsync(0, 10, None)).Select(entry => JsonSerializer.Deserialize<JsonElement>(entry.Line.Json)).ToArray();
        Assert.Equal(["begun", "ended"], lines.Select(line => line.GetProperty("state").GetString()));
        Assert.Equal((3, 1), (lines[1].GetProperty("readings").GetInt64(), lines[1].GetProperty("unreadable").GetInt64()));
        Assert.Equal(At(1_000).Raw.Time, lines[1].GetProperty("first").GetDateTimeOffset());
        Assert.Equal(At(3_000).Raw.Time, lines[1].GetProperty("last").GetDateTimeOffset());
    }

    [Fact]
    public async Task Any_other_failure_comes_back_to_the_caller_and_nothing_is_let_go()
    {
        inner.Fault = new StoreUnavailableException("a disk that fails");
        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await readings.AppendAsync(new[] { At(0) }, None));
        Assert.Equal(0, readings.NotKept);
        Assert.Null(readings.Gap);
        Assert.Empty(await ledger.ReadAsync(0, 10, None));
    }

    [Fact]
    public async Task A_ledger_that_cannot_say_it_lets_nothing_go()
    {
        inner.Fault = new StoreUnavailableException("full") { DiskFull = true };
        ledger.Dispose();
        await Assert.ThrowsAnyAsync<Exception>(async () => await readings.AppendAsync(new[] { At(0) }, None));
        Assert.Equal(0, readings.NotKept);
    }

    private TrustedReading At(long milliseconds) => new(
        new Reading(0, place.Clock.Start.ToUnixTimeMilliseconds() + milliseconds, 20), 20, Trust.Accepted, TrustReason.None);

    private sealed class Stumbling(IReadingStore inner) : IReadingStore
    {
        public Exception? Fault { get; set; }

        public ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation) =>
            Fault is { } fault ? throw fault : inner.AppendAsync(batch, cancellation);

        public ValueTask KeepUnreadableAsync(
            IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation) =>
            Fault is { } fault ? throw fault : inner.KeepUnreadableAsync(messages, cancellation);

        public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
            string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation) =>
            inner.ReadAsync(sensorId, from, to, points, cancellation);

        public IAsyncEnumerable<StoredReading> RowsAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation) =>
            inner.RowsAsync(sensorId, from, to, cancellation);
    }
}
