using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>A reading that was set aside.</summary>
/// <param name="EpochMilliseconds">Event time.</param>
/// <param name="Raw">The value as decoded, in the canonical unit of the sensor.</param>
/// <param name="Reason">Why.</param>
/// <param name="StoredAt">When it was first written.</param>
public sealed record QuarantinedReading(long EpochMilliseconds, double Raw, TrustReason Reason, DateTimeOffset StoredAt)
{
    /// <summary>The stamp as sent, in ms since 1970; another than the event time where the sender's clock was ahead.</summary>
    public long StampMilliseconds { get; init; } = EpochMilliseconds;
}

/// <summary>A reading that was corrected.</summary>
/// <param name="EpochMilliseconds">Event time.</param>
/// <param name="Raw">The value as decoded, in the canonical unit of the sensor.</param>
/// <param name="Value">The value in use.</param>
/// <param name="Reason">Why.</param>
public sealed record CorrectedReading(long EpochMilliseconds, double Raw, double Value, TrustReason Reason);
