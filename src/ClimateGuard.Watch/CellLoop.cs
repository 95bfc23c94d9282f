using System.Threading.Channels;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The one driver of a running cell, and the whole way of a reading on one screen.</summary>
/// <remarks>
/// One loop owns all state; pages and HTTP read the snapshots it shows. Five stops: the source has decoded (1), trust judges (2), readings and
/// events are committed and only then acknowledged (3), each machine's watch steps (4), the ledger keeps the decisions and only then they are
/// told (5). No row, no acknowledgement; no ledger line, nothing told; a failing channel disturbs nothing else.
/// </remarks>
public sealed class CellLoop
{
    private readonly CellLoopPorts ports;
    private readonly CellLoopOptions options;
    private readonly TimeProvider time;
    private readonly RunningCell running;
    private readonly LoopBatch batch;
    private readonly ClockSteps clock;
    private readonly Channel<PostedEvent> posted = Channel.CreateBounded<PostedEvent>(1024);

    /// <summary>Puts a loop together.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="configVersion">Version of its plant file.</param>
    /// <param name="ports">Where it reads and writes.</param>
    /// <param name="options">Its pace.</param>
    /// <param name="time">The clock.</param>
    public CellLoop(Cell cell, string configVersion, CellLoopPorts ports, CellLoopOptions options, TimeProvider time)
    {
        this.ports = ports ?? throw new ArgumentNullException(nameof(ports));
        this.options = options ?? throw new ArgumentNullException(nameof(options));
        this.time = time ?? throw new ArgumentNullException(nameof(time));
        running = new RunningCell(cell, configVersion, time.GetUtcNow(), options.LeastBetweenSteps);
        batch = new LoopBatch(options.MostInBatch);
        clock = new ClockSteps(time);
    }

    /// <summary>The newest snapshot.</summary>
    public CellSnapshot Snapshot => running.Snapshot;

    /// <summary>Brings an event in from HTTP or a page; returns when its decisions are in the ledger.</summary>
    /// <param name="happened">The event.</param>
    /// <param name="cancellation">Stops waiting; the event may still be taken.</param>
    /// <returns>What was decided on it, in order.</returns>
    public async Task<IReadOnlyList<Decision>> PostAsync(CellEvent happened, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(happened);
        var waiting = new PostedEvent(happened);
        await posted.Writer.WriteAsync(waiting, cancellation);
        return await waiting.Done.WaitAsync(cancellation);
    }

    /// <summary>Runs until it is cancelled. An error of the store or the ledger ends it: nothing is acknowledged or told that is not kept.</summary>
    /// <param name="cancellation">Ends the loop.</param>
    public async Task RunAsync(CancellationToken cancellation)
    {
        await GoOnAsync(cancellation);
        using var wake = new LoopWake(ports.Source.Arrivals, posted.Reader, options.Tick, time, cancellation);
        while (await wake.NextAsync())
        {
            if (clock.SteppedBy() is { } step)
            {
                running.AfterClockStep(step, time.GetUtcNow());
            }

            await FillAsync(cancellation);                                        // 1 decoded by the source, gathered for one commit
            running.Judge(batch);                                                 // 2 judged by trust
            await KeepAsync(cancellation);                                        // 3 committed, then acknowledged
            var decisions = running.Step(batch, time.GetUtcNow());                // 4 decided
            await TellAsync(decisions, cancellation);                             // 5 in the ledger, then told
        }
    }

    /// <summary>
    /// Goes on where the last worker ended: with what its machines remembered, and with the events that were kept and acknowledged but not
    /// decided any more. A request among them is too old by now and is answered so.
    /// </summary>
    private async Task GoOnAsync(CancellationToken cancellation)
    {
        var kept = await ports.Ledger.CheckpointsAsync(cancellation);
        running.Restore(kept.Machines.Select(ports.State).OfType<MachineState>());
        await foreach (var entry in ports.Ledger.AllAsync(kept.AppliedSeq, cancellation))
        {
            if (entry.Line.Kind == LedgerKinds.Event && ports.Event(entry.Line) is { } happened)
            {
                batch.Begin(happened);
                await TellAsync(running.Step(batch, time.GetUtcNow()), cancellation);
            }
        }

        batch.Begin();
    }

    private ValueTask FillAsync(CancellationToken cancellation) =>
        batch.FillAsync(ports.Source.Arrivals, posted.Reader, options.Gather, time, cancellation);

    private async Task KeepAsync(CancellationToken cancellation)
    {
        if (batch.Judged.Length > 0)
        {
            await ports.Readings.AppendAsync(batch.Judged, cancellation);
        }

        if (batch.Unreadable.Count > 0)
        {
            await ports.Readings.KeepUnreadableAsync(batch.Unreadable, cancellation);
        }

        if (batch.Work.Count > 0)
        {
            await ports.Ledger.AppendAsync([.. batch.Work.Select(work => ports.EventLine(work.Happened))], cancellation);
        }

        if (batch.Arrivals.Length > 0)
        {
            await ports.Source.AcknowledgeAsync(batch.Arrivals, cancellation);
        }
    }

    private async Task TellAsync(IReadOnlyList<Decision> decisions, CancellationToken cancellation)
    {
        var lines = decisions.Select(ports.DecisionLine).OfType<LedgerLine>().ToArray();
        MachineCheckpoint[] checkpoints = [.. running.TakeRemembered().Select(ports.Checkpoint)];
        if (decisions.Count > 0 || checkpoints.Length > 0)
        {
            // Also when no decision is worth a line: a worker that lost its lease must not renew an outlook either.
            await ports.Ledger.AppendAsync(lines, checkpoints, cancellation);
        }

        batch.CompletePosted();
        ports.Show(running.Snapshot);
        if (decisions.Count == 0)
        {
            return;
        }

        foreach (var channel in ports.Channels)
        {
            await channel.TellAsync(decisions, cancellation);
        }
    }
}
