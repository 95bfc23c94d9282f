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
    private RunningCell running;
    private PlantVersion used;
    private PlantEdit? offered;
    private readonly LoopBatch batch;
    private readonly ClockSteps clock;
    private readonly AirPastReader past;
    private readonly Channel<PostedEvent> posted = Channel.CreateBounded<PostedEvent>(1024);

    /// <summary>Puts a loop together.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="configVersion">Version of its plant file.</param>
    /// <param name="ports">Where it reads and writes.</param>
    /// <param name="options">Its pace.</param>
    /// <param name="time">The clock.</param>
    public CellLoop(Cell cell, string configVersion, CellLoopPorts ports, CellLoopOptions options, TimeProvider time)
        : this(new PlantVersion(cell, configVersion), ports, options, time)
    {
    }

    /// <summary>Puts a loop together.</summary>
    /// <param name="plant">The version of the plant file that source and store use already.</param>
    /// <param name="ports">Where it reads and writes.</param>
    /// <param name="options">Its pace.</param>
    /// <param name="time">The clock.</param>
    public CellLoop(PlantVersion plant, CellLoopPorts ports, CellLoopOptions options, TimeProvider time)
    {
        this.ports = ports ?? throw new ArgumentNullException(nameof(ports));
        this.options = options ?? throw new ArgumentNullException(nameof(options));
        this.time = time ?? throw new ArgumentNullException(nameof(time));
        running = new RunningCell(plant, time.GetUtcNow(), options.LeastBetweenSteps, options.AirPace);
        used = plant;
        batch = new LoopBatch(options.MostInBatch);
        clock = new ClockSteps(time);
        past = new AirPastReader(ports, time);
    }

    /// <summary>The newest snapshot.</summary>
    public CellSnapshot Snapshot => Volatile.Read(ref running).Snapshot;

    /// <summary>The version of the plant file in force.</summary>
    public PlantVersion Plant => Volatile.Read(ref running).Plant;

    /// <summary>Offers what became of the plant file; it is taken between two rounds, and only the newest offer counts.</summary>
    /// <remarks>A change that was worked out against another version than the one in force is not taken: see <see cref="Plant"/>.</remarks>
    /// <param name="edit">A new version, a refused one, or that the file is as before.</param>
    public void Offer(PlantEdit edit) => Volatile.Write(ref offered, edit);

    /// <summary>
    /// Takes a version that was offered while another worker decided into force, without a word: the one that decided has told of it. Only
    /// before <see cref="RunAsync"/>.
    /// </summary>
    /// <returns>The version in force.</returns>
    public PlantVersion TakeOverPlant()
    {
        if (offered is PlantChange change && running.After(change, time.GetUtcNow()) is { } changed)
        {
            running = changed.Next;
            offered = null;
        }

        return running.Plant;
    }

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
        await UsePlantAsync(cancellation);
        await GoOnAsync(cancellation);
        using var wake = new LoopWake(ports.Source.Arrivals, posted.Reader, options.Tick, time, cancellation);
        while (await wake.NextAsync())
        {
            if (clock.SteppedBy() is { } step)
            {
                running.AfterClockStep(step, time.GetUtcNow());
            }

            await TakePlantAsync(cancellation);                                   // a changed plant file, between two rounds
            past.Follow(running.Air, running.Plant.Cell, cancellation);           // what the history says of the air, read beside the loop
            await FillAsync(cancellation);                                        // 1 decoded by the source, gathered for one commit
            running.Judge(batch);                                                 // 2 judged by trust
            await KeepAsync(cancellation);                                        // 3 committed, then acknowledged
            var decisions = running.Step(batch, time.GetUtcNow());                // 4 decided
            await TellAsync(running, decisions, cancellation);                    // 5 in the ledger, then told
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
        await past.RestoreAsync(running, cancellation);
        await foreach (var entry in ports.Ledger.AllAsync(kept.AppliedSeq, cancellation))
        {
            if (entry.Line.Kind == LedgerKinds.Event && ports.Event(entry.Line) is { } happened)
            {
                batch.Begin(happened);
                await TellAsync(running, running.Step(batch, time.GetUtcNow()), cancellation);
            }
        }

        batch.Begin();
        var departures = running.DepartUntold(time.GetUtcNow());
        running.Look(time.GetUtcNow());
        await TellAsync(running, departures, cancellation);
    }

    private async Task TakePlantAsync(CancellationToken cancellation)
    {
        if (Volatile.Read(ref offered) is { } edit)
        {
            batch.Begin();
            if (running.After(edit, time.GetUtcNow()) is { } after)
            {
                await TellAsync(after.Next, after.Decisions, cancellation);
            }

            Interlocked.CompareExchange(ref offered, null, edit);
        }

        await UsePlantAsync(cancellation);
    }

    /// <summary>Nothing is kept before source and store count sensors as the cell in force does, also not after a failure in between.</summary>
    private async Task UsePlantAsync(CancellationToken cancellation)
    {
        if (!ReferenceEquals(used, running.Plant))
        {
            await ports.UsePlant(running.Plant, cancellation);
            used = running.Plant;
        }
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

    /// <summary>What the ledger has is in force from then on, and told.</summary>
    private async Task TellAsync(RunningCell next, IReadOnlyList<Decision> decisions, CancellationToken cancellation)
    {
        var lines = decisions.Select(ports.DecisionLine).OfType<LedgerLine>().ToArray();
        MachineCheckpoint[] checkpoints = [.. next.TakeRemembered().Select(ports.Checkpoint)];
        if (decisions.Count > 0 || checkpoints.Length > 0)
        {
            // Also when no decision is worth a line: a worker that lost its lease must not renew an outlook either.
            await ports.Ledger.AppendAsync(lines, checkpoints, cancellation);
        }

        Volatile.Write(ref running, next);
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
