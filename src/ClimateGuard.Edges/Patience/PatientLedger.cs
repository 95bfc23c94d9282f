using ClimateGuard.Watch;
using Polly;

namespace ClimateGuard.Edges.Patience;

/// <summary>A ledger that is tried again until it takes the lines: nothing is told before.</summary>
/// <param name="inner">The ledger.</param>
/// <param name="retry">How to try again.</param>
public sealed class PatientLedger(ILedgerStore inner, ResiliencePipeline retry) : ILedgerStore
{
    /// <inheritdoc/>
    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation) =>
        retry.ExecuteAsync(static (state, token) => state.inner.AppendAsync(state.lines, token), (inner, lines), cancellation);

    /// <inheritdoc/>
    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, IReadOnlyList<MachineCheckpoint> checkpoints, CancellationToken cancellation) =>
        retry.ExecuteAsync(
            static (state, token) => state.inner.AppendAsync(state.lines, state.checkpoints, token), (inner, lines, checkpoints), cancellation);

    /// <inheritdoc/>
    public ValueTask<LedgerCheckpoints> CheckpointsAsync(CancellationToken cancellation) => inner.CheckpointsAsync(cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<LedgerEntry>> ReadAsync(long afterSeq, int most, CancellationToken cancellation) =>
        inner.ReadAsync(afterSeq, most, cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<LedgerEntry>> ReadBackAsync(
        string? kind, string? machine, long beforeSeq, int most, CancellationToken cancellation) =>
        inner.ReadBackAsync(kind, machine, beforeSeq, most, cancellation);
}
