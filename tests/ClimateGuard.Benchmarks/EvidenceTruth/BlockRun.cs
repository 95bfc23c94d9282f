using System.Text;
using ClimateGuard.Edges.Json;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.EvidenceTruth;

/// <summary>One block through the product: the pipeline of <c>evidence</c> in event time, without files.</summary>
internal sealed class BlockRun
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan Round = TimeSpan.FromSeconds(10);
    private readonly VirtualCell world;
    private readonly EventTimeLoop loop;
    private readonly CutObserver observer;
    private readonly List<string> events = [];
    private DateTimeOffset last;

    private BlockRun(Cell cell, BlockStory story)
    {
        world = new VirtualCell(cell, story.Options);
        loop = new EventTimeLoop(cell, "truth", world.Now, watchesAir: false);
        observer = new CutObserver(cell);
        last = world.Now;
    }

    public static BlockRecord Live(Cell cell, int seed, int weeks)
    {
        var story = BlockStory.Of(cell, seed, weeks);
        var run = new BlockRun(cell, story);
        var end = run.world.Now + TimeSpan.FromDays(7 * weeks);
        while (run.world.Now < end) run.Advance();
        var (results, truth) = BlockInspection.Of(run.world, story, seed);
        return new BlockRecord { Seed = seed, Weeks = weeks, Events = run.events, Cuts = run.observer.Cuts(run.last), Checks = run.observer.Checks, Results = results, Truth = truth };
    }

    private void Advance()
    {
        world.Advance(world.Now + Round, Take, happened =>
        {
            events.Add(Encoding.UTF8.GetString(EventJson.ToUtf8(happened)));
            Step(happened.Time, happened);
        });
        if (world.Now - last >= Minute) Step(world.Now, null);
    }

    private void Take(Reading reading)
    {
        if (loop.Full) Step(last, null);
        loop.Take(reading, live: true);
    }

    // What an outage held back is older than the last step: it is taken when it comes, as in the shop.
    private void Step(DateTimeOffset moment, CellEvent? happened)
    {
        last = moment > last ? moment : last;
        // No verdict rests on an answer or on the prediction frozen before a cut, and both cost more than all the rest: they are left out here.
        loop.Follow(last, happened is PermitRequested ? null : happened);
        observer.Take(last, happened, loop.Remembered(), zone => loop.VerticalGradient(zone, last));
    }
}
