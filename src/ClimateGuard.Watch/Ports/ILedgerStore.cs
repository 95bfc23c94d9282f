namespace ClimateGuard.Watch;

/// <summary>The record of what was decided, append-only.</summary>
/// <remarks>An audit store: a failure comes back to the caller. No ledger line, no permit.</remarks>
public interface ILedgerStore
{
    /// <summary>Appends lines; when it returns they are committed.</summary>
    /// <param name="lines">The lines, in order.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation);

    /// <summary>The newest lines, newest first.</summary>
    /// <param name="kind">Only this kind, or null for all.</param>
    /// <param name="machine">Only this machine, or null for all.</param>
    /// <param name="most">At most so many, in [1, 10 000].</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask<IReadOnlyList<LedgerLine>> NewestAsync(string? kind, string? machine, int most, CancellationToken cancellation);
}
