namespace ClimateGuard.Watch;

/// <summary>What is wrong with a sensor over time, in plain words.</summary>
/// <param name="Cause">What.</param>
/// <param name="Since">Since when, in event time.</param>
/// <param name="Text">What happened, where, and what becomes of the readings.</param>
/// <param name="Action">The one action.</param>
public sealed record SensorCondition(TrustReason Cause, DateTimeOffset Since, string Text, string Action)
{
    /// <summary>Whether its readings are set aside meanwhile.</summary>
    public bool SetsAside => Cause is TrustReason.Stuck or TrustReason.Swapped or TrustReason.ConflictingTwin
        or TrustReason.Sentinel or TrustReason.OutOfRange or TrustReason.UnitMixUp or TrustReason.FromTheFuture or TrustReason.StampTooOld;

    /// <summary>Whether its readings, though kept, have no vote on the air of a zone while others have one.</summary>
    public bool HasNoVote => SetsAside || Cause is TrustReason.Outvoted or TrustReason.Drifting or TrustReason.Slow;
}
