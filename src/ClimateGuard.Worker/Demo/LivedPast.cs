using System.Threading.Channels;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Demo;

/// <summary>Lets the virtual cell live through the days before a moment: the pipeline of <c>run</c> in event time, into the real store and ledger.</summary>
/// <remarks>
/// Nobody listens, so nothing is told, and a day is one commit. To be quick, gateways say a value a minute instead of each one, and a machine at
/// which nothing happens is stepped every ten minutes; the last hour goes by the minute. What the product decides stays its own.
/// </remarks>
internal sealed class LivedPast(VirtualCell world, PlantVersion plant, CellLoopPorts ports)
{
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan BetweenSteps = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan LastHour = TimeSpan.FromHours(1);
    private static readonly TimeSpan NearPast = TimeSpan.FromDays(2);

    // Judging the air over a day costs most of all; what lies further back than two days is judged every six hours.
    private static readonly AirPace Seldom = new(TimeSpan.FromMinutes(10), TimeSpan.FromHours(6));

    // Six hours of the cell.
    private const int MostAhead = 2160;

    private readonly long[] saidAt = new long[world.Description.Sensors.Count];
    private readonly List<TrustedReading> readings = [];
    private readonly List<LedgerLine> lines = [];
    private EventTimeLoop? earlier;

    /// <summary>Lives up to a moment; the share done is told after each day.</summary>
    public async Task LiveAsync(DateTimeOffset until, Action<double> progress, CancellationToken cancellation)
    {
        var from = world.Now;
        void Tell(DateTimeOffset now) => progress((now - from) / (until - from));
        if (until - NearPast > from) await LiveAsync(until - NearPast, BetweenSteps, Seldom, Tell, cancellation);
        if (until - LastHour > world.Now) await LiveAsync(until - LastHour, BetweenSteps, null, Tell, cancellation);
        await LiveAsync(until, Minute, null, _ => { }, cancellation);
    }

    private async Task LiveAsync(
        DateTimeOffset until, TimeSpan betweenSteps, AirPace? airPace, Action<DateTimeOffset> day, CancellationToken cancellation)
    {
        var loop = new EventTimeLoop(plant, world.Now, betweenSteps, airPace) { Keep = judged => readings.AddRange(judged.Span) };
        var kept = await ports.Ledger.CheckpointsAsync(cancellation);
        loop.GoOn([.. kept.Machines.Select(ports.State).OfType<MachineState>()], earlier);
        earlier = loop;
        var (lastStep, lastDay) = (world.Now, world.Now);
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        var said = Channel.CreateBounded<Stretch>(MostAhead);
        var telling = Task.Run(() => TellAsync(until, said.Writer, ending.Token), CancellationToken.None);
        try
        {
            await foreach (var stretch in said.Reader.ReadAllAsync(cancellation))
            {
                Take(loop, stretch);
                if (stretch.Moment - lastStep >= betweenSteps) Decide(loop, lastStep = stretch.Moment, null);
                if (stretch.Moment - lastDay < TimeSpan.FromDays(1)) continue;
                lastDay = stretch.Moment;
                await CommitAsync([], cancellation);
                day(lastDay);
            }
        }
        finally
        {
            await ending.CancelAsync();
            await telling;
        }

        await CommitAsync([.. loop.Remembered().Select(ports.Checkpoint)], cancellation);
    }

    /// <summary>The cell lives on a core of its own, some hours ahead of who judges what it says.</summary>
    private async Task TellAsync(DateTimeOffset until, ChannelWriter<Stretch> told, CancellationToken ending)
    {
        try
        {
            while (world.Now + Step <= until) await told.WriteAsync(Next(), ending);
            told.Complete();
        }
        catch (Exception failure)
        {
            told.Complete(failure);
        }
    }

    private Stretch Next()
    {
        var stretch = new Stretch(world.Now + Step, [], []);
        world.Advance(
            stretch.Moment,
            reading =>
            {
                if (reading.EpochMilliseconds - saidAt[reading.Sensor] < 55_000) return;
                saidAt[reading.Sensor] = reading.EpochMilliseconds;
                stretch.Readings.Add(reading);
            },
            stretch.Events.Add);
        return stretch;
    }

    private void Take(EventTimeLoop loop, Stretch stretch)
    {
        foreach (var reading in stretch.Readings) loop.Take(reading, live: true);
        foreach (var one in stretch.Events)
        {
            lines.Add(ports.EventLine(one));
            Decide(loop, stretch.Moment, one);
        }
    }

    private void Decide(EventTimeLoop loop, DateTimeOffset moment, CellEvent? happened) =>
        lines.AddRange(loop.Step(moment, happened).Select(ports.DecisionLine).OfType<LedgerLine>());

    private async Task CommitAsync(IReadOnlyList<MachineCheckpoint> checkpoints, CancellationToken cancellation)
    {
        await ports.Readings.AppendAsync(readings.ToArray(), cancellation);
        await ports.Ledger.AppendAsync([.. lines], checkpoints, cancellation);
        readings.Clear();
        lines.Clear();
    }

    /// <summary>What the cell said in one step.</summary>
    private sealed record Stretch(DateTimeOffset Moment, List<Reading> Readings, List<CellEvent> Events);
}
