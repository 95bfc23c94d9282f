using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>The way of a reading as in <see cref="CellLoop"/>, but in event time: whoever drives it says which moment it is.</summary>
/// <remarks>
/// The same trust, the same state of the cell, the same watches of the machines; no clock, no store, no broker. The same readings, events and
/// moments give the same decisions. Owned by one caller, not safe across threads.
/// </remarks>
public sealed class EventTimeLoop
{
    internal const int MostInRound = 65_536;

    private readonly RunningCell running;
    private readonly LoopBatch batch = new(MostInRound);

    /// <summary>Begins with nothing known.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="configVersion">Version of its plant file.</param>
    /// <param name="start">The first moment.</param>
    /// <param name="watchesAir">Whether zones and air handlers are watched for causes; what is asked of the parts alone does not need it.</param>
    public EventTimeLoop(Cell cell, string configVersion, DateTimeOffset start, bool watchesAir = true)
    {
        running = new RunningCell(new PlantVersion(cell, configVersion), start) { SideBySide = true, WatchesAir = watchesAir };
        batch.Begin();
    }

    /// <summary>Begins with nothing known; a machine at which nothing happens is stepped no sooner than after a while, one machine after the other.</summary>
    /// <param name="plant">The plant file in force.</param>
    /// <param name="start">The first moment.</param>
    /// <param name="leastBetweenSteps">The while.</param>
    /// <param name="airPace">How often the air is judged, or null for what goes with that.</param>
    public EventTimeLoop(PlantVersion plant, DateTimeOffset start, TimeSpan leastBetweenSteps, AirPace? airPace = null)
    {
        running = new RunningCell(plant, start, leastBetweenSteps, airPace);
        batch.Begin();
    }

    /// <summary>Told of the readings of each step with their judgement, in order; valid during the call. Null: nobody wants them.</summary>
    public Action<ReadOnlyMemory<TrustedReading>>? Keep { get; init; }

    /// <summary>The newest snapshot.</summary>
    public CellSnapshot Snapshot => running.Snapshot;

    /// <summary>No further reading has room: the next call must be a step or a pass.</summary>
    public bool Full => batch.Full;

    /// <summary>Takes a reading, in order of event time.</summary>
    /// <param name="reading">The reading, as decoded.</param>
    /// <param name="live">It was live when it came; else it is set aside as it was then.</param>
    public void Take(in Reading reading, bool live) =>
        batch.Take(new Arrival { Reading = reading, ArrivedAt = reading.Time, Retained = !live });

    /// <summary>Judges what was taken, and steps every machine.</summary>
    /// <param name="moment">The moment, not before that of the last step.</param>
    /// <param name="happened">What happened at that moment, or null.</param>
    /// <returns>What was decided, in order.</returns>
    public IReadOnlyList<Decision> Step(DateTimeOffset moment, CellEvent? happened)
    {
        running.Judge(batch);
        Keep?.Invoke(batch.Judged);
        if (happened is not null)
        {
            batch.Take(happened);
        }

        var decisions = running.Step(batch, moment);
        batch.Begin();
        return decisions;
    }

    /// <summary>Judges what was taken, takes in what happened and follows the temperatures of every machine; outlooks and the snapshot stay as they are.</summary>
    /// <remarks>
    /// For who wants to know what parts were exposed to: an outlook costs a thousand times as much as the step of a temperature. One machine after the
    /// other, as it reads; <see cref="ExposureLoop"/> does the same on all processors.
    /// </remarks>
    /// <param name="moment">The moment, not before that of the last step.</param>
    /// <param name="happened">What happened at that moment, or null.</param>
    /// <returns>What was decided about it: answers, overrides, scores.</returns>
    public IReadOnlyList<Decision> Follow(DateTimeOffset moment, CellEvent? happened)
    {
        running.Judge(batch);
        Keep?.Invoke(batch.Judged);
        if (happened is not null)
        {
            batch.Take(happened);
        }

        var decisions = running.Follow(batch, moment);
        batch.Begin();
        return decisions;
    }

    /// <summary>Judges what was taken and makes the outlook of one machine for who looks back on its cut; the others stay as they are.</summary>
    /// <param name="moment">The moment, not before that of the last step; nothing happened at it.</param>
    /// <param name="machine">Id of the machine.</param>
    public void LookBack(DateTimeOffset moment, string machine)
    {
        running.Judge(batch);
        Keep?.Invoke(batch.Judged);
        running.LookBack(batch, moment, machine);
        batch.Begin();
    }

    /// <summary>How much warmer the air of a zone is under the roof than at the machines, in K; not a number where one of the two is not known.</summary>
    /// <param name="zone">Id of the zone.</param>
    /// <param name="moment">The moment.</param>
    public double VerticalGradient(string zone, DateTimeOffset moment) => running.VerticalGradient(zone, moment);

    /// <summary>Judges what was taken, watches the air, and does not step the machines: to come quickly to a place from which to go on.</summary>
    /// <param name="moment">The moment, not before that of the last step.</param>
    /// <param name="happened">What happened, or null.</param>
    public void Pass(DateTimeOffset moment, CellEvent? happened)
    {
        running.Judge(batch);
        if (happened is not null)
        {
            batch.Take(happened);
        }

        running.Pass(batch, moment);
        batch.Begin();
    }

    /// <summary>What each machine remembers now.</summary>
    public IReadOnlyList<MachineState> Remembered() => running.Remembered();

    /// <summary>Goes on with what the machines remembered.</summary>
    /// <param name="remembered">The state of each machine.</param>
    /// <param name="earlier">The loop that watched the air until now, which is not used any more; null to begin with nothing known of it.</param>
    public void GoOn(IEnumerable<MachineState> remembered, EventTimeLoop? earlier = null)
    {
        running.Restore(remembered);
        if (earlier is not null)
        {
            running.TakeAirOf(earlier.running);
        }
    }
}
