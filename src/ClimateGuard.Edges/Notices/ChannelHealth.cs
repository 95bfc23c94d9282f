namespace ClimateGuard.Edges.Notices;

/// <summary>How a channel to people stands.</summary>
/// <param name="Channel">The channel: <c>mail</c> or <c>webhook</c>.</param>
/// <param name="Delivered">Messages delivered since the start of the process.</param>
/// <param name="Waiting">Messages that wait for delivery.</param>
/// <param name="OldestWaiting">When the oldest of them was written, or null.</param>
/// <param name="DeadLetters">Messages given up; they are kept.</param>
/// <param name="FailingSince">Since when nothing gets through, or null.</param>
/// <param name="LastError">Why the last attempt failed, or null when the last one went well.</param>
/// <param name="Lost">Alerts that were not taken into notices because the outbox could not be written for too long; they are in the ledger.</param>
public sealed record ChannelHealth(
    string Channel, long Delivered, long Waiting, DateTimeOffset? OldestWaiting, long DeadLetters, DateTimeOffset? FailingSince, string? LastError, long Lost)
{
    /// <summary>Whether messages get through, as far as is known.</summary>
    public bool Healthy => FailingSince is null;
}
