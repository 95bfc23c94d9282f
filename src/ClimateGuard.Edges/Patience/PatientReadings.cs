using ClimateGuard.Watch;
using Polly;

namespace ClimateGuard.Edges.Patience;

/// <summary>A store of readings that is tried again until it takes them: the loop waits, the broker keeps what is not acknowledged.</summary>
/// <param name="inner">The store.</param>
/// <param name="retry">How to try again.</param>
public sealed class PatientReadings(IReadingStore inner, ResiliencePipeline retry) : IReadingStore
{
    /// <inheritdoc/>
    public ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation) =>
        retry.ExecuteAsync(static (state, token) => state.inner.AppendAsync(state.batch, token), (inner, batch), cancellation);

    /// <inheritdoc/>
    public ValueTask KeepUnreadableAsync(
        IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation) =>
        retry.ExecuteAsync(static (state, token) => state.inner.KeepUnreadableAsync(state.messages, token), (inner, messages), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation) =>
        inner.ReadAsync(sensorId, from, to, points, cancellation);

    /// <inheritdoc/>
    public IAsyncEnumerable<StoredReading> RowsAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation) =>
        inner.RowsAsync(sensorId, from, to, cancellation);
}
