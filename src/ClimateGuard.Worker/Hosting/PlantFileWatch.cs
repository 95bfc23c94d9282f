using ClimateGuard.Edges.Json;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Watch;

namespace ClimateGuard.Worker.Hosting;

/// <summary>Looks at the plant file once a second and offers the loop what became of it.</summary>
/// <remarks>
/// By content, not by notices of the file system: these do not come over a network or into a container, and an editor that writes a new
/// file and renames it gives several. A file counts when two looks in a row find the same, so a half-written one is not taken.
/// </remarks>
internal sealed class PlantFileWatch(CellLoop loop, WorkerPlan plan, ILogger<PlantFileWatch> logger) : BackgroundService
{
    private static readonly TimeSpan Pace = TimeSpan.FromSeconds(1);
    private const int MostProblems = 10;

    private string settling = "";
    private string done = plan.ConfigVersion;
    private PlantChange? waiting;

    /// <summary>One look.</summary>
    public void Look()
    {
        var seen = PlantFileReader.Fingerprint(plan.PlantFile);
        var settled = seen == settling;
        settling = seen;
        if (settled && seen != done)
        {
            Take(seen);
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (!plan.FollowsPlantFile)
        {
            return;
        }

        using var timer = new PeriodicTimer(Pace);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                Look();
            }
            catch (Exception failure) when (failure is not OutOfMemoryException)
            {
                logger.LogError(failure, "The plant file could not be looked at; version {Version} stays in force", loop.Plant.Version);
            }
        }
    }

    private void Take(string seen)
    {
        var inForce = loop.Plant;
        if (seen == inForce.Version)
        {
            if (waiting?.Next.Version != seen)
            {
                // The file was changed, and is as before again.
                loop.Offer(new PlantUnchanged());
            }

            logger.LogInformation("Plant file version {Version} is in force", seen);
            (done, waiting) = (seen, null);
            return;
        }

        if (waiting is { } offered && offered.Next.Version == seen && offered.Before == inForce.Version)
        {
            // The loop takes it between two rounds; a worker that stands by, when it takes over.
            return;
        }

        var read = PlantFileReader.Read(plan.PlantFile, inForce.Cell);
        if (read.Cell is not { } cell)
        {
            Refuse(read);
            (done, waiting) = (seen, null);
        }
        else if (read.ConfigVersion == seen)
        {
            waiting = Change(inForce, new PlantVersion(cell, seen)
            {
                File = plan.PlantFile, Text = read.Text, Materials = read.Materials, By = FileOwner.Of(plan.PlantFile),
            });
            loop.Offer(waiting);
        }
    }

    private static PlantChange Change(PlantVersion before, PlantVersion next)
    {
        var differences = PlantDifferences.Between(before.Text, next.Text, before.Materials, next.Materials);
        return new PlantChange(next, before.Version, differences.Lines, differences.LeftOut);
    }

    private void Refuse(PlantFileResult read)
    {
        string[] problems = [.. read.Problems.Take(MostProblems).Select(problem => Printable.Clean(problem.ToString(), 400))];
        loop.Offer(new PlantRefused(read.ConfigVersion, problems, read.Problems.Count - problems.Length));
        foreach (var problem in problems)
        {
            logger.LogError("The changed plant file is refused: {Problem}", problem);
        }

        logger.LogError("{Count} problems in the plant file; version {Version} stays in force", read.Problems.Count, loop.Plant.Version);
    }
}
