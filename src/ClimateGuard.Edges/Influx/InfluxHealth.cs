namespace ClimateGuard.Edges.Influx;

/// <summary>How the way into InfluxDB stands.</summary>
/// <param name="Rows">Readings this process brought in.</param>
/// <param name="SetAside">Readings this process brought in as set aside.</param>
/// <param name="LastCommit">When InfluxDB last took something from this process, or null.</param>
/// <param name="Trouble">Why InfluxDB takes nothing, with what to mend, or null.</param>
/// <param name="SpooledBatches">Batches that wait on disk; they are in no series yet.</param>
/// <param name="SpooledBytes">Size of what waits, with what is done with in the same files.</param>
/// <param name="SpoolLimitBytes">The most that may wait.</param>
/// <param name="OldestSpooled">When the oldest that waits was spooled, or null.</param>
/// <param name="IsFull">The spool is full: nothing is taken from the broker until InfluxDB answers again.</param>
/// <param name="RefusedPoints">Points that InfluxDB will never take, kept in <c>refused.jsonl</c>, since the start.</param>
public sealed record InfluxHealth(
    long Rows, long SetAside, DateTimeOffset? LastCommit, string? Trouble,
    long SpooledBatches, long SpooledBytes, long SpoolLimitBytes, DateTimeOffset? OldestSpooled, bool IsFull, long RefusedPoints);
