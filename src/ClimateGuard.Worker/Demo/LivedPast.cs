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

    private readonly long[] saidAt = new long[world.Description.Sensors.Count];
    private readonly List<TrustedReading> readings = [];
    private readonly List<LedgerLine> lines = [];
    private EventTimeLoop? earlier;

    /// <summary>Lives up to a moment; the share done is told after each day.</summary>
    public async Task LiveAsync(DateTimeOffset until, Action<double> progress, CancellationToken cancellation)
    {
        var (from, close) = (world.Now, until - LastHour);
        if (close > from) await LiveAsync(close, BetweenSteps, now => progress((now - from) / (until - from)), [], cancellation);
        var kept = await ports.Ledger.CheckpointsAsync(cancellation);
        await LiveAsync(until, Minute, _ => { }, [.. kept.Machines.Select(ports.State).OfType<MachineState>()], cancellation);
    }

    private async Task LiveAsync(
        DateTimeOffset until, TimeSpan betweenSteps, Action<DateTimeOffset> day, IReadOnlyList<MachineState> remembered, CancellationToken cancellation)
    {
        var loop = new EventTimeLoop(plant, world.Now, betweenSteps) { Keep = judged => readings.AddRange(judged.Span) };
        loop.GoOn(remembered, earlier);
        earlier = loop;
        var (lastStep, lastDay) = (world.Now, world.Now);
        while (world.Now + Step <= until)
        {
            Advance(loop);
            if (world.Now - lastStep >= betweenSteps) Decide(loop, lastStep = world.Now, null);
            if (world.Now - lastDay < TimeSpan.FromDays(1)) continue;
            lastDay = world.Now;
            await CommitAsync([], cancellation);
            day(lastDay);
        }

        await CommitAsync([.. loop.Remembered().Select(ports.Checkpoint)], cancellation);
    }

    private void Advance(EventTimeLoop loop)
    {
        var moment = world.Now + Step;
        var happened = new List<CellEvent>();
        world.Advance(
            moment,
            reading =>
            {
                if (reading.EpochMilliseconds - saidAt[reading.Sensor] < 55_000) return;
                saidAt[reading.Sensor] = reading.EpochMilliseconds;
                loop.Take(reading, live: true);
            },
            happened.Add);
        foreach (var one in happened)
        {
            lines.Add(ports.EventLine(one));
            Decide(loop, moment, one);
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
}
