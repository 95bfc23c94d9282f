using System.Threading.Channels;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Plants;

/// <summary>A running cell moved by hand, round by round, whose plant file is changed in between.</summary>
internal sealed class RunningBench
{
    private readonly Channel<Arrival> arrivals = Channel.CreateUnbounded<Arrival>();
    private readonly Channel<PostedEvent> posted = Channel.CreateUnbounded<PostedEvent>();
    private readonly LoopBatch batch = new(8192);

    public RunningBench(Cell cell) => Running = new RunningCell(new PlantVersion(cell, "A"), Now);

    public RunningCell Running { get; private set; }

    public DateTimeOffset Now { get; private set; } = Some.Morning;

    public List<Decision> Decisions { get; } = [];

    public List<(string Sensor, double Value)> Judged { get; } = [];

    public List<UnreadableMessage> Unreadable { get; } = [];

    public MachineSnapshot Machine => Running.Snapshot.Machines[0];

    public void Send(Cell? cell, int sensor, double value) => arrivals.Writer.TryWrite(new Arrival
    {
        Cell = cell, Reading = new Reading(sensor, Now.ToUnixTimeMilliseconds(), value), ArrivedAt = Now,
    });

    public RunningBench Air(double celsius = 20)
    {
        var cell = Running.Plant.Cell;
        for (var i = 0; i < cell.Sensors.Count; i++)
        {
            if (cell.Sensors[i].Place is SensorPlace.Air or SensorPlace.Coolant)
            {
                Send(cell, i, celsius);
            }
        }

        return Round();
    }

    public RunningBench Round(TimeSpan later = default, params ReadOnlySpan<CellEvent> happened)
    {
        Now += later;
        foreach (var one in happened)
        {
            posted.Writer.TryWrite(new PostedEvent(one));
        }

        // Nothing is gathered, so it is done at once.
        batch.FillAsync(arrivals.Reader, posted.Reader, TimeSpan.Zero, TimeProvider.System, CancellationToken.None).AsTask().GetAwaiter().GetResult();
        Running.Judge(batch);
        foreach (var reading in batch.Judged.Span)
        {
            Judged.Add((Running.Plant.Cell.Sensors[reading.Raw.Sensor].Id, reading.Raw.Value));
        }

        Unreadable.AddRange(batch.Unreadable.Select(kept => kept.Message));
        Decisions.AddRange(Running.Step(batch, Now));
        return this;
    }

    public RunningBench Load(double startCelsius) => Round(default, new JobLoaded(Now, "M1")
    {
        Serial = "S1", Part = "D-1", Operation = "40", Planned = TimeSpan.FromMinutes(35), Start = new Celsius(startCelsius), StartUncertainty = new Kelvins(0.1),
    });

    public PermitAnswer Ask(string id)
    {
        Round(default, new PermitRequested(Now, "M1") { Serial = "S1", Part = "D-1", Operation = "40", RequestId = id, SentAt = Now });
        return Decisions.OfType<RequestAnswered>().Last().Answer;
    }

    /// <summary>Puts another version in force, as the loop does once the ledger has it; gives what is told of it.</summary>
    public IReadOnlyList<Decision> Edit(PlantEdit edit)
    {
        Assert.True(Running.After(edit, Now) is not null, "the edit was not taken");
        var (next, decisions) = Running.After(edit, Now)!.Value;
        Running = next;
        Decisions.AddRange(decisions);
        return decisions;
    }

    public IReadOnlyList<Decision> Edit(Cell next, string version = "B") =>
        Edit(new PlantChange(new PlantVersion(next, version), Running.Plant.Version, ["something"]));
}
