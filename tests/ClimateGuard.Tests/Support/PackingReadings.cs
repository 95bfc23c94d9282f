using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Support;

/// <summary>A history that packs after each batch, on the spot.</summary>
public sealed class PackingReadings(SqliteReadings inner) : IReadingStore
{
    public async ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation)
    {
        await inner.AppendAsync(batch, cancellation);
        await inner.PackAsync(cancellation);
    }

    public ValueTask KeepUnreadableAsync(
        IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation) =>
        inner.KeepUnreadableAsync(messages, cancellation);

    public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation) =>
        inner.ReadAsync(sensorId, from, to, points, cancellation);

    public IAsyncEnumerable<StoredReading> RowsAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation) =>
        inner.RowsAsync(sensorId, from, to, cancellation);
}
