using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.PlantFile;

namespace ClimateGuard.Benchmarks.Truth;

/// <summary>
/// How often the product is right: random weeks of the virtual cell, which shares no model code with it, through the very loop of <c>run</c>, scored
/// against the truth. <c>dotnet run -c Release --project tests/ClimateGuard.Benchmarks -- truth --weeks 200 --seed 1</c>.
/// </summary>
internal static class TruthBench
{
    public static async Task RunAsync(string[] args)
    {
        var weeks = (int)Number(args, "--weeks", 200);
        var seed = (int)Number(args, "--seed", 1);
        var days = Number(args, "--days", 6);
        var silent = args.Contains("--silent");
        var cell = PlantFileReader.Read(Find("config", "plant.yaml")).Cell ?? throw new InvalidOperationException("The sample plant file is not valid.");
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
        if (Array.IndexOf(args, "--requests") is var at and >= 0 && at + 1 < args.Length)
        {
            await File.WriteAllLinesAsync(args[at + 1], [RequestBackground.Header, .. all.Where(r => r.Background is not null).Select(r => r.Background!.Row(r))]);
        }
    }

    private static double Number(string[] args, string name, double otherwise)
    {
        var at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? double.Parse(args[at + 1], CultureInfo.InvariantCulture) : otherwise;
    }

    private static string Find(params string[] path)
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var file = Path.Combine([folder.FullName, .. path]);
            if (File.Exists(file)) return file;
        }

        throw new FileNotFoundException("Run it from the repository: " + Path.Combine(path) + " is needed.");
    }
}
