using ClimateGuard.Evidence;
using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Follows in event time what parts were exposed to, on all processors: for who looks back on a long span.</summary>
/// <remarks>
/// It comes to the same as <see cref="EventTimeLoop.Follow"/> with a <see cref="CutObserver"/> beside it, to the last bit: readings are judged in order,
/// and what they say of the surroundings is written down for a stretch of moments; meanwhile each machine is followed through the stretch before
/// by itself, as no machine looks at another. Before each cut one outlook is made. Owned by one caller, not safe across threads.
/// </remarks>
public sealed class ExposureLoop
{
    private readonly RunningCell running;
    private readonly FollowedMachine[] machines;
    private FollowedStretch stretch;
    private FollowedStretch spare;
    private Work work = new([], null);
    private int taken;

    /// <summary>Begins with nothing known.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="configVersion">Version of its plant file.</param>
    /// <param name="start">The first moment.</param>
    public ExposureLoop(Cell cell, string configVersion, DateTimeOffset start)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var plant = new PlantVersion(cell, configVersion);
        running = new RunningCell(plant, start) { WatchesAir = false };
        machines = [.. running.Remembered().Select((state, index) => new FollowedMachine(plant, index, state))];
        (stretch, spare) = (new FollowedStretch(machines.Length), new FollowedStretch(machines.Length));
    }

    /// <summary>No further reading has room: the next call must be a step.</summary>
    public bool Full => taken == EventTimeLoop.MostInRound;

    /// <summary>Takes a reading, in order of event time.</summary>
    /// <param name="reading">The reading, as decoded.</param>
    /// <param name="live">It was live when it came; else it is set aside as it was then.</param>
    public void Take(in Reading reading, bool live)
    {
        running.TakeAtOnce(new Arrival { Reading = reading, ArrivedAt = reading.Time, Retained = !live });
        taken++;
    }

    /// <summary>Follows every machine up to a moment.</summary>
    /// <param name="moment">The moment, not before that of the last step.</param>
    /// <param name="happened">What happened at that moment, or null.</param>
    public void Step(DateTimeOffset moment, CellEvent? happened)
    {
        if (happened is CutMoved { Started: true } cut)
        {
            // What was predicted of the cut is the outlook that stood before it.
            Note(moment, null, cut.Machine);
        }

        Note(moment, happened, null);
        taken = 0;
    }

    /// <summary>Ends: a cut that still runs counts up to the last moment.</summary>
    /// <param name="now">The last moment.</param>
    public Exposures Finish(DateTimeOffset now)
    {
        HandOver();
        work.Finish();
        foreach (var machine in machines)
        {
            machine.Close(now);
        }

        // One machine after the other within a moment, as they are followed one after the other.
        IReadOnlyList<T> InOrder<T>(Func<FollowedMachine, IEnumerable<(int Step, T Said)>> of) => [.. machines.SelectMany(of).OrderBy(one => one.Step).Select(one => one.Said)];
        return new(InOrder(machine => machine.Cuts), InOrder(machine => machine.Checks), InOrder(machine => machine.Decisions));
    }

    private void Note(DateTimeOffset moment, CellEvent? happened, string? lookBack)
    {
        if (stretch.Full)
        {
            HandOver();
        }

        running.Note(stretch, moment, happened, lookBack);
    }

    private void HandOver()
    {
        work.Finish();
        work = new Work(machines, stretch);
        var before = stretch.Before + stretch.Count;
        (stretch, spare) = (spare, stretch);
        stretch.Begin(before);
    }

    /// <summary>The machines to be followed through one stretch: by a task beside, and at last by whoever waits for it.</summary>
    private sealed class Work
    {
        private readonly FollowedMachine[] machines;
        private readonly FollowedStretch? stretch;
        private readonly Task beside;
        private int next = -1;

        public Work(FollowedMachine[] machines, FollowedStretch? stretch)
        {
            (this.machines, this.stretch) = (machines, stretch);
            beside = machines.Length == 0 ? Task.CompletedTask : Task.Run(Go);
        }

        public void Finish()
        {
            Go();
            beside.GetAwaiter().GetResult();
        }

        private void Go()
        {
            for (var mine = Interlocked.Increment(ref next); mine < machines.Length; mine = Interlocked.Increment(ref next))
            {
                machines[mine].Follow(stretch!);
            }
        }
    }
}

/// <summary>What parts were exposed to over a span.</summary>
/// <param name="Cuts">The finish cuts, in the order in which they ended.</param>
/// <param name="Checks">Measurements beside what the model had predicted of them, in order.</param>
/// <param name="Decisions">Answers, overrides and scores, in order.</param>
public sealed record Exposures(IReadOnlyList<RecordedCut> Cuts, IReadOnlyList<ModelCheck> Checks, IReadOnlyList<Decision> Decisions);
