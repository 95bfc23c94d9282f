namespace ClimateGuard.Watch;

/// <summary>The record of what was decided: append-only, numbered from 1 without a gap, each line chained to the one before.</summary>
/// <remarks>
/// An audit store: a failure comes back to the caller. No ledger line, no permit. One writer at a time; any number of readers, also while it
/// writes. What is read carries its number and hash (<see cref="LedgerChain"/>), so that it can be checked by anyone.
/// </remarks>
public interface ILedgerStore
{
    /// <summary>Appends lines; when it returns they are committed and survive a crash and a power cut.</summary>
    /// <remarks>
    /// Without lines it writes nothing and only makes sure that this worker may still write, so that nothing without a line of its own, such
    /// as a renewed outlook, is told by a worker that lost its lease.
    /// </remarks>
    /// <param name="lines">The lines, in order; see <see cref="LedgerLine"/> for what is allowed.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentException">A line is not allowed; none was written.</exception>
    /// <exception cref="LeaseLostException">Another worker decides for the cell; none was written.</exception>
    ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation);

    /// <summary>Appends lines and, in the same commit, replaces the checkpoints of these machines: either all of it is kept or nothing.</summary>
    /// <param name="lines">The lines, in order.</param>
    /// <param name="checkpoints">What these machines remember once the lines are written; from here on everything up to the last line counts as decided.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentException">A line is not allowed; nothing was written.</exception>
    /// <exception cref="LeaseLostException">Another worker decides for the cell; nothing was written.</exception>
    ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, IReadOnlyList<MachineCheckpoint> checkpoints, CancellationToken cancellation);

    /// <summary>From where a worker goes on; nothing for a ledger that keeps no checkpoints.</summary>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask<LedgerCheckpoints> CheckpointsAsync(CancellationToken cancellation);

    /// <summary>Lines in order.</summary>
    /// <param name="afterSeq">Those after this number; 0 begins at the first.</param>
    /// <param name="most">At most so many, in [1, 10 000]; fewer mean that the end was reached.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number after which is negative, or <paramref name="most"/> is outside its range.</exception>
    ValueTask<IReadOnlyList<LedgerEntry>> ReadAsync(long afterSeq, int most, CancellationToken cancellation);

    /// <summary>Lines backwards, newest first.</summary>
    /// <param name="kind">Only this kind, or null for all.</param>
    /// <param name="machine">Only this machine, or null for all.</param>
    /// <param name="beforeSeq">Those before this number; <see cref="long.MaxValue"/> begins at the newest.</param>
    /// <param name="most">At most so many, in [1, 10 000]; fewer mean that the begin was reached.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="most"/> is outside its range.</exception>
    ValueTask<IReadOnlyList<LedgerEntry>> ReadBackAsync(
        string? kind, string? machine, long beforeSeq, int most, CancellationToken cancellation);
}
