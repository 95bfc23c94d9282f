using System.Collections.Concurrent;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;

namespace ClimateGuard.Worker.Demo;

/// <summary>What a visitor may do to the virtual cell now. Safe across threads: what is wished waits for the next step of the cell.</summary>
internal sealed class DemoDesk
{
    private readonly VirtualCell world;
    private readonly DemoInspection? inspection;
    private readonly ConcurrentQueue<CellAction> wishes = new();
    private readonly TaskCompletionSource begun = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource<string> written = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private volatile SpanReading[] spans = [];
    private volatile Announcement[] told = [];

    /// <summary>A desk for a cell; incidents whose machine, door, sensor or air handler it has not are left out.</summary>
    public DemoDesk(VirtualCell world, double speed, DemoInspection? inspection = null)
    {
        this.world = world;
        this.inspection = inspection;
        Speed = speed;
        Incidents = [.. DemoIncident.All.Where(incident => incident.Fits(world.Description))];
    }

    /// <summary>How many times faster than the wall clock the cell lives.</summary>
    public double Speed { get; }

    /// <summary>What can be made to happen in this cell.</summary>
    public IReadOnlyList<DemoIncident> Incidents { get; }

    /// <summary>What the story has told of itself so far, newest first.</summary>
    public IReadOnlyList<Announcement> Told => told;

    /// <summary>The file of the inspection results when it was written, or null.</summary>
    public string? ResultsFile { get; private set; }

    /// <summary>What became of that file when it was handed to the worker, in words; null until then.</summary>
    public string? ResultsTaken { get; set; }

    /// <summary>Ends with the file of the inspection results when it was written.</summary>
    public Task<string> ResultsWritten => written.Task;

    /// <summary>What became of the second worker of the story, in words; null before it asked.</summary>
    public string? SecondWorker { get; set; }

    /// <summary>What a span probe would read now on the parts that lie on machines: a visitor has no probe.</summary>
    public IReadOnlyList<SpanReading> Spans => spans;

    /// <summary>How far the past has been lived through, in words; null when the story goes on.</summary>
    public string? Past { get; set; }

    /// <summary>Ends when the past has been lived through; until then the cell belongs to whoever lives through it.</summary>
    public Task Begun => begun.Task;

    /// <summary>The story goes on from here.</summary>
    public void Begin() => begun.TrySetResult();

    /// <summary>Makes something happen with the next step.</summary>
    public void Wish(DemoIncident incident)
    {
        foreach (var action in incident.Actions(world.Description)) wishes.Enqueue(action);
    }

    /// <summary>Does what was wished; called by whoever advances the cell, between two steps.</summary>
    public void DoWishes()
    {
        while (wishes.TryDequeue(out var action)) world.Do(action);
        if (world.Told.Count > told.Length) told = [.. world.Told.Reverse()];
        spans = [.. world.Description.Machines.Select(machine => SpanReading.Of(world, machine.Id)).OfType<SpanReading>()];
    }

    /// <summary>Writes what the inspection found, once its day has come; called like <see cref="DoWishes"/>.</summary>
    public async Task KeepResultsAsync(CancellationToken cancellation)
    {
        if (inspection is null || ResultsFile is not null || world.Now < inspection.Due) return;
        await File.WriteAllLinesAsync(inspection.File, WeekInspection.Lines(world, inspection.Seed), cancellation);
        ResultsFile = inspection.File;
        written.TrySetResult(inspection.File);
    }
}
