using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Enclosure;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Benchmarks.Diagnosing;

/// <summary><c>diagnose-virtual --seeds N [--first S] [--only F01,F02] [--wordy]</c>: each fault of the virtual cell over random seeds, and healthy days.</summary>
internal static class DiagnoseVirtualBench
{
    private static readonly HashSet<string> OfSpecialCell = ["F02", "F10", "F11", "F26", "F34"];

    public static void Run(string[] args)
    {
        var seeds = Options.Whole(args, "--seeds", 20);
        var first = Options.Whole(args, "--first", 1);
        var only = Options.Text(args, "--only")?.Split(',').ToHashSet();
        var codes = FaultCatalogue.All.Select(f => f.Code).Where(c => only is null || only.Contains(c)).ToList();
        var right = codes.ToDictionary(c => c, _ => 0);
        var instead = codes.ToDictionary(c => c, _ => new Dictionary<string, int>());
        int days = 0, falseDays = 0;
        var falsely = new Dictionary<string, int>();
        var watch = Stopwatch.StartNew();
        for (var seed = first; seed < first + seeds; seed++)
        {
            foreach (var special in (bool[])[false, true])
            {
                var mine = codes.Where(c => OfSpecialCell.Contains(c) == special).ToList();
                if (mine.Count == 0) continue;
                var trial = new VirtualFaultTrial(seed, special);
                foreach (var day in trial.Healthy().Findings.GroupBy(f => f.Day))
                {
                    days++;
                    var flagged = day.Where(f => f.Flagged).Select(f => f.Assessment.Cause.Id).Distinct().ToList();
                    if (flagged.Count > 0) falseDays++;
                    if (flagged.Count > 0 && args.Contains("--wordy")) Tell($"healthy {day.Key} special {special}", seed, [.. day.Where(f => f.Flagged)]);
                    foreach (var id in flagged) falsely[id] = falsely.GetValueOrDefault(id) + 1;
                }

                foreach (var code in mine)
                {
                    var found = trial.Faulty(code);
                    var named = found[0].Flagged ? found[0].Assessment.Cause.Id : "none";
                    if (named == code) right[code]++;
                    else instead[code][named] = instead[code].GetValueOrDefault(named) + 1;
                    if (args.Contains("--wordy")) Tell(code, seed, found);
                }
            }
        }

        foreach (var code in codes)
        {
            var others = string.Join(", ", instead[code].OrderByDescending(p => p.Value).Select(p => $"{p.Key} {p.Value}"));
            Console.WriteLine($"{code} {FaultCatalogue.Of(code).Name,-34} first and right {right[code],3} of {seeds} {(others.Length > 0 ? $"instead: {others}" : "")}");
        }

        Console.WriteLine(FormattableString.Invariant(
            $"all: {100.0 * right.Values.Sum() / (seeds * codes.Count):0} % right first; {codes.Count(c => right[c] >= 0.85 * seeds)} of {codes.Count} causes reach 85 %; healthy days flagged {falseDays} of {days} ({100.0 * falseDays / Math.Max(1, days):0.0} %): {string.Join(", ", falsely.OrderByDescending(p => p.Value).Select(p => $"{p.Key} {p.Value}"))}; {watch.Elapsed.TotalSeconds:0} s"));
    }

    private static void Tell(string code, int seed, IReadOnlyList<Finding> found)
    {
        Console.WriteLine($"-- {code} seed {seed}");
        foreach (var finding in found.Take(4).Concat(found.Where(f => f.Assessment.Cause.Id == code)).Distinct())
        {
            Console.WriteLine(FormattableString.Invariant($"   {finding.Probability:0.00} {finding.Assessment.Cause.Id} {finding.Assessment.AirHandler} {finding.Assessment.Words} {string.Join("; ", finding.Assessment.Missing)}"));
            foreach (var e in finding.Assessment.Evidence) Console.WriteLine(FormattableString.Invariant($"        {e.LogLikelihoodRatio:+0.0;-0.0} {e.Text}"));
        }
    }
}
