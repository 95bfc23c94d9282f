using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Benchmarks.Truth;

/// <summary>
/// How often the product is right: random weeks of the virtual cell, which shares no model code with it, through the very loop of <c>run</c>, scored
/// against the truth. <c>dotnet run -c Release --project tests/ClimateGuard.Benchmarks -- truth --weeks 200 --seed 1</c>.
/// </summary>
internal static class TruthBench
{
    public static async Task RunAsync(string[] args)
    {
        var weeks = Options.Whole(args, "--weeks", 200);
        var seed = Options.Whole(args, "--seed", 1);
        var days = Options.Number(args, "--days", 6);
        var silent = args.Contains("--silent");
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell ?? throw new InvalidOperationException("The sample plant file is not valid.");
        var scored = new ConcurrentBag<ScoredRequest>();
        var clock = Stopwatch.StartNew();
        await Parallel.ForEachAsync(
            Enumerable.Range(seed, weeks),
            new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount },
            async (one, _) =>
            {
                foreach (var request in await WeekRun.PlayAsync(cell, one, days, silent)) scored.Add(request);
                await Console.Error.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"week {one} done after {clock.Elapsed.TotalSeconds:0} s"));
            });
        ScoredRequest[] all = [.. scored.OrderBy(r => r.Seed).ThenBy(r => r.Ask.Time).ThenBy(r => r.Ask.Machine, StringComparer.Ordinal)];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{weeks} random weeks from seed {seed}, {all.Length} requests, {clock.Elapsed.TotalMinutes:0.0} min on {Environment.ProcessorCount} cores"));
        TruthTable.Print(all, Console.Out);
        if (Options.Text(args, "--requests") is { } file)
        {
            await File.WriteAllLinesAsync(file, [RequestBackground.Header, .. all.Where(r => r.Background is not null).Select(r => r.Background!.Row(r))]);
        }
    }
}
