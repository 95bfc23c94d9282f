namespace ClimateGuard.Edges.Sqlite;

/// <summary>One notice in the outbox.</summary>
/// <param name="Seq">Its place in the order.</param>
/// <param name="Key">Its key; the same each time it is sent.</param>
/// <param name="Json">The notice.</param>
/// <param name="Made">When it was written.</param>
/// <param name="Attempts">How often it was tried in vain.</param>
/// <param name="Due">When it is to be tried next.</param>
/// <param name="Error">Why the last attempt failed, or null.</param>
public sealed record OutboxItem(long Seq, string Key, string Json, DateTimeOffset Made, int Attempts, DateTimeOffset Due, string? Error);

/// <summary>How the outbox of one channel stands.</summary>
/// <param name="Sent">Delivered; those older than 30 days are no longer counted.</param>
/// <param name="Waiting">To be delivered.</param>
/// <param name="Dead">Given up, kept with the reason.</param>
/// <param name="OldestWaiting">When the oldest waiting one was written, or null.</param>
public sealed record OutboxCounts(long Sent, long Waiting, long Dead, DateTimeOffset? OldestWaiting);
