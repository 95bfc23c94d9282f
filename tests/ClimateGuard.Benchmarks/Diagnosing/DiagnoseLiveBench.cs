using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Benchmarks.Diagnosing;

/// <summary><c>diagnose-live [--history] [--wordy] [--by-day] [--seed S] [--days N]</c>: the scripted week through the watch of the air alone: what it tells, and how long a pass takes.</summary>
internal static class DiagnoseLiveBench
{
    public static void Run(string[] args)
    {
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell ?? throw new InvalidOperationException("config/plant.yaml does not pass its checks");
        var history = args.Contains("--history");
        var seed = args.SkipWhile(a => a != "--seed").Skip(1).FirstOrDefault() is { } number ? int.Parse(number, CultureInfo.InvariantCulture) : 7;
        var options = history ? DemoScripts.WeekWithHistory(cell, seed) : DemoScripts.Week(cell, seed);
        var world = new VirtualCell(cell, options);
        var watch = new AirWatch(cell, AirPace.Usual);
        var until = args.SkipWhile(a => a != "--days").Skip(1).FirstOrDefault() is { } days
            ? options.Start.AddDays(double.Parse(days, CultureInfo.InvariantCulture))
            : DemoScripts.InWeek(cell, TimeSpan.FromDays(7));
        var taken = new List<double>();
        var byDay = args.Contains("--by-day") ? new FrameBuilder(cell) : null;
        var (count, passed) = (0L, TimeSpan.Zero);
        while (world.Now < until)
        {
            var decisions = new List<Decision>();
            world.Advance(
                world.Now.AddMinutes(1),
                reading =>
                {
                    count++;
                    byDay?.Add(reading);
                    watch.Take(new TrustedReading(reading, reading.Value, Trust.Accepted, TrustReason.None));
                },
                happened => watch.Take(happened, world.Now, [], decisions));
            var before = watch.Snapshot;
            var begin = Stopwatch.GetTimestamp();
            watch.Pass(world.Now, [], decisions);
            var spent = Stopwatch.GetElapsedTime(begin);
            passed += spent;
            if (!ReferenceEquals(before, watch.Snapshot)) taken.Add(spent.TotalMilliseconds);
            Print(cell, decisions, args.Contains("--wordy"));
        }

        foreach (var finding in byDay is null ? [] : Diagnosis.Of(byDay.Build(), cell, new DiagnosisOptions { ByDay = true, TimeZone = TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone) }).Findings.Where(f => f.Probability > 0.2))
            Console.WriteLine(FormattableString.Invariant($"by day {finding.Day:MM-dd ddd} {finding.Assessment.Cause.Id} {finding.Assessment.AirHandler} {finding.Assessment.Words} p={finding.Probability:0.00} {string.Join("; ", finding.Assessment.Evidence.Select(e => e.Text + " " + e.LogLikelihoodRatio.ToString("0.0", CultureInfo.InvariantCulture)))}"));

        taken.Sort();
        Console.WriteLine(FormattableString.Invariant(
            $"{count} readings, {taken.Count} passes: median {taken[taken.Count / 2]:0.0} ms, 95 % {taken[taken.Count * 95 / 100]:0.0} ms, 99 % {taken[taken.Count * 99 / 100]:0.0} ms, most {taken[^1]:0.0} ms, in all {passed.TotalSeconds:0.0} s; {GC.GetTotalMemory(true) / 1e6:0} MB held; load average {File.ReadAllText("/proc/loadavg").Split(' ')[0]}"));
    }

    private static void Print(Cell cell, List<Decision> decisions, bool wordy)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone);
        string At(DateTimeOffset time) => TimeZoneInfo.ConvertTime(time, zone).ToString("MM-dd ddd HH:mm", CultureInfo.InvariantCulture);
        foreach (var told in decisions.OfType<FindingTold>())
        {
            var finding = told.Finding;
            Console.WriteLine(FormattableString.Invariant(
                $"{At(told.Time)} {finding.State,-6} {finding.Place.Cause} {finding.Place.Where,-5} {finding.Words} p={finding.Probability:0.00} onset {(finding.Onset is { } onset ? At(onset) : "-")} {finding.ClosedBecause}"));
            if (wordy) Console.WriteLine("    " + string.Join("; ", finding.Evidence.Select(e => FormattableString.Invariant($"{e.Text} [{e.LogLikelihoodRatio:0.0}]"))));
        }

        foreach (var told in decisions.OfType<ExcursionTold>().Where(t => t.Excursion.End is not null && t.Excursion.DegreeMinutes > 2))
        {
            var e = told.Excursion;
            Console.WriteLine(FormattableString.Invariant($"{At(told.Time)} excursion {e.Zone} from {At(e.Begin)} to {At(e.End!.Value)} peak {e.PeakKelvins:0.0} K, {e.DegreeMinutes:0} K·min, {e.Jobs.Count} jobs"));
        }
    }
}
