using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Benchmarks.EvidenceTruth;

/// <summary>
/// How often a verdict of <c>evidence</c> is right: blocks of random weeks of the virtual cell, each block one shop, through the product, against the truth.
/// <c>dotnet run -c Release --project tests/ClimateGuard.Benchmarks -- evidence-truth --weeks 200 --seed 1 [--block 10] [--keep FOLDER] [--side-by-side 2]</c>.
/// </summary>
internal static class EvidenceTruthBench
{
    public static void Run(string[] args)
    {
        var weeks = Options.Whole(args, "--weeks", 200);
        var seed = Options.Whole(args, "--seed", 1);
        var block = Math.Min(weeks, Options.Whole(args, "--block", 10));
        var keep = Options.Text(args, "--keep");
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell ?? throw new InvalidOperationException("The sample plant file is not valid.");
        var judged = new ConcurrentBag<JudgedFeature>();
        var clock = Stopwatch.StartNew();
        Parallel.ForEach(
            Enumerable.Range(0, weeks / block),
            new ParallelOptions { MaxDegreeOfParallelism = Options.Whole(args, "--side-by-side", Environment.ProcessorCount) },
            number =>
            {
                var first = seed + (number * block);
                var file = keep is null ? null : BlockRecord.FileOf(keep, first, block);
                var record = file is null ? null : BlockRecord.Read(file);
                if (record is null)
                {
                    record = BlockRun.Live(cell, first, block);
                    if (file is not null) record.Write(file);
                }

                foreach (var one in JudgedFeature.Of(cell, record)) judged.Add(one);
                Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"weeks {first} to {first + block - 1} done after {clock.Elapsed.TotalSeconds:0} s"));
            });
        JudgedFeature[] all = [.. judged.OrderBy(one => one.Seed).ThenBy(one => one.Said.Inspected.Step.Begin).ThenBy(one => one.Said.Inspected.Feature.Id, StringComparer.Ordinal)];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{weeks} random weeks from seed {seed} in blocks of {block}, {all.Length} inspected features, {clock.Elapsed.TotalMinutes:0.0} min on {Environment.ProcessorCount} cores"));
        EvidenceTruthTable.Print(all, Console.Out);
    }
}
