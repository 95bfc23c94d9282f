namespace ClimateGuard.Watch;

/// <summary>The time series on disk.</summary>
/// <remarks>An audit store: a failure comes back to the caller. No row, no acknowledgement.</remarks>
public interface IReadingStore
{
    /// <summary>Writes judged readings; when it returns they are committed. Idempotent by (sensor, event time).</summary>
    /// <param name="batch">The readings.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation);

    /// <summary>Keeps messages that could not be read, with topic and reason.</summary>
    /// <param name="messages">The messages with their time of arrival.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask KeepUnreadableAsync(IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation);

    /// <summary>The accepted readings of a sensor in a window, in time order, at most so many points.</summary>
    /// <param name="sensorId">Id of the sensor.</param>
    /// <param name="from">Begin, inclusive.</param>
    /// <param name="to">End, exclusive.</param>
    /// <param name="points">The most points to return, in [2, 20 000]; minima and maxima are kept when rows must be left out.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation);

    /// <summary>Every row of a sensor in a window, accepted, corrected and set aside, in time order; for export and for proof.</summary>
    /// <param name="sensorId">Id of the sensor.</param>
    /// <param name="from">Begin, inclusive.</param>
    /// <param name="to">End, exclusive.</param>
    /// <param name="cancellation">Stops waiting.</param>
    IAsyncEnumerable<StoredReading> RowsAsync(string sensorId, DateTimeOffset from, DateTimeOffset to, CancellationToken cancellation);
}

/// <summary>One row of the history with the judgement on it.</summary>
/// <param name="EpochMilliseconds">Event time.</param>
/// <param name="Raw">The value as decoded, in the canonical unit of the sensor.</param>
/// <param name="Value">The value in use: raw or corrected.</param>
/// <param name="Trust">What became of it.</param>
/// <param name="Reason">Why, when it was not simply accepted.</param>
public readonly record struct StoredReading(long EpochMilliseconds, double Raw, double Value, Trust Trust, TrustReason Reason)
{
    /// <summary>The stamp as sent, in milliseconds since 1970-01-01 UTC; another than the event time where the sender's clock was ahead.</summary>
    public long StampMilliseconds { get; init; } = EpochMilliseconds;
}

/// <summary>One point of a series.</summary>
/// <param name="EpochMilliseconds">Event time.</param>
/// <param name="Value">The value, in the canonical unit of the sensor.</param>
public readonly record struct SeriesPoint(long EpochMilliseconds, double Value);
