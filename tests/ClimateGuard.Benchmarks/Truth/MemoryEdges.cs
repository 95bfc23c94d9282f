using System.Threading.Channels;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.Truth;

/// <summary>The edges of a cell without a broker and without a disk: what is kept is forgotten, what is told is collected.</summary>
internal sealed class MemoryEdges : IReadingSource, IReadingStore, ILedgerStore, IAlertChannel
{
    public RoundReader Round { get; } = new();

    public List<Decision> Told { get; } = [];

    public ChannelReader<Arrival> Arrivals => Round;

    public string Name => "memory";

    public CellLoopPorts Ports() => new()
    {
        Source = this,
        Readings = this,
        Ledger = this,
        Channels = [this],
        EventLine = happened => new LedgerLine(happened.Time, LedgerKinds.Event, null, "{}"),
        DecisionLine = _ => null,
        Checkpoint = state => new MachineCheckpoint(state.Machine, "{}"),
        State = _ => null,
        Event = _ => null,
        Show = _ => { },
    };

    public ValueTask AcknowledgeAsync(ReadOnlyMemory<Arrival> batch, CancellationToken cancellation) => default;

    public ValueTask AppendAsync(ReadOnlyMemory<TrustedReading> batch, CancellationToken cancellation) => default;

    public ValueTask KeepUnreadableAsync(
        IReadOnlyList<(DateTimeOffset ArrivedAt, UnreadableMessage Message)> messages, CancellationToken cancellation) => default;

    public ValueTask<IReadOnlyList<SeriesPoint>> ReadAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, int points, CancellationToken cancellation) => new([]);

    public async IAsyncEnumerable<StoredReading> RowsAsync(
        string sensorId, DateTimeOffset from, DateTimeOffset to, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation)
    {
        await Task.CompletedTask;
        yield break;
    }

    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, CancellationToken cancellation) => default;

    public ValueTask AppendAsync(IReadOnlyList<LedgerLine> lines, IReadOnlyList<MachineCheckpoint> checkpoints, CancellationToken cancellation) => default;

    public ValueTask<LedgerCheckpoints> CheckpointsAsync(CancellationToken cancellation) => new(new LedgerCheckpoints(0, []));

    public ValueTask<IReadOnlyList<LedgerEntry>> ReadAsync(long afterSeq, int most, CancellationToken cancellation) => new([]);

    public ValueTask<IReadOnlyList<LedgerEntry>> ReadBackAsync(
        string? kind, string? machine, long beforeSeq, int most, CancellationToken cancellation) => new([]);

    public ValueTask TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation)
    {
        foreach (var decision in decisions)
        {
            if (decision is RequestAnswered or OutlookIssued) Told.Add(decision);
        }

        return default;
    }
}
