using System.Globalization;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Evidence;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Loop;

/// <summary>Machines followed on all processors by stretches come to what they come to one after the other, moment by moment.</summary>
public sealed class ExposureLoopTests
{
    private static readonly Cell Sample = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);
    private readonly List<Decision> decisions = [];

    [Theory]
    [InlineData(3)]
    [InlineData(11)]
    public void Days_of_a_random_week_give_the_same_cuts_checks_and_decisions_to_the_last_bit(int seed)
    {
        var world = new VirtualCell(Sample, RandomWeek.Of(Sample, seed).Options);
        var (plain, observer, quick) = (new EventTimeLoop(Sample, "v", world.Now, watchesAir: false), new CutObserver(Sample), new ExposureLoop(Sample, "v", world.Now));
        var (last, end) = (world.Now, world.Now + TimeSpan.FromHours(40));
        void Step(DateTimeOffset moment, CellEvent? happened)
        {
            last = moment > last ? moment : last;
            quick.Step(last, happened);
            StepPlainly(plain, observer, last, happened);
        }

        while (world.Now < end)
        {
            world.Advance(world.Now + TimeSpan.FromSeconds(20), reading => Take(plain, quick, reading), happened => Step(happened.Time, happened));
            if (world.Now - last >= Minute) Step(world.Now, null);
        }

        var (expected, followed) = (observer.Cuts(last), quick.Finish(last));
        Assert.True(expected.Count >= 8, $"{expected.Count} cuts");
        Assert.Contains(expected, cut => cut.Frozen.Count > 0);
        Assert.NotEmpty(observer.Checks);
        Assert.Equal(expected.Select(Exactly), followed.Cuts.Select(Exactly));
        Assert.Equal(observer.Checks, followed.Checks);
        foreach (var machine in Sample.Machines)
        {
            Assert.Equal(Of(decisions, machine), Of(followed.Decisions, machine));
        }
    }

    private static void Take(EventTimeLoop plain, ExposureLoop quick, in Reading reading)
    {
        plain.Take(reading, live: true);
        quick.Take(reading, live: true);
    }

    private void StepPlainly(EventTimeLoop loop, CutObserver observer, DateTimeOffset moment, CellEvent? happened)
    {
        void See(CellEvent? seen) => observer.Take(moment, seen, loop.Remembered(), zone => loop.VerticalGradient(zone, moment));
        if (happened is CutMoved { Started: true } cut)
        {
            loop.LookBack(moment, cut.Machine);
            See(null);
        }

        decisions.AddRange(loop.Follow(moment, happened));
        See(happened);
    }

    private static string[] Of(IEnumerable<Decision> decisions, Machine machine) =>
        [.. decisions.Where(one => one is RequestAnswered { Answer: var answer } && answer.Machine == machine.Id || one is OverrideTaken over && over.Machine == machine.Id
            || one is CutWithoutPermit cut && cut.Machine == machine.Id).Select(one => one is RequestAnswered { Answer: var answer } ? $"{answer.Time:O} {answer.RequestId} {answer.Answer} {answer.Text}" : one.ToString()!)];

    private static string Exactly(RecordedCut cut) => string.Create(CultureInfo.InvariantCulture, $"""
        {cut.Work} {cut.Part} {cut.Start:O} {cut.End:O}
        {string.Join('\n', cut.Samples.Select(sample => $"{sample with { Effects = [] }} {string.Join(' ', sample.Effects)}"))}
        {string.Join('\n', cut.Frozen.Select(one => $"{one.Key} {one.Value}"))}
        """);
}
