using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Benchmarks.Forecasting;

/// <summary><c>forecast-quality --weeks N --seed S [--by-rung]</c>: what the forecast of the virtual cell is worth, every moment told before it came.</summary>
/// <remarks>Two weeks are lived through before the first that counts. The weeks are random ones, with their faults, doors, jobs and set-backs.</remarks>
internal static class ForecastQualityBench
{
    private const int Before = 2;
    private static readonly TimeSpan Week = TimeSpan.FromDays(7);

    public static void Run(string[] args)
    {
        var weeks = Options.Whole(args, "--weeks", 6);
        var seed = Options.Whole(args, "--seed", 1);
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell!;
        var watch = Stopwatch.StartNew();
        var zones = Lived(cell, seed, weeks + Before);
        var scores = new List<ForecastScore>();
        double ticks = 0, most = 0;
        long steps = 0;
        foreach (var (zone, moments) in zones)
        {
            var forecaster = new ZoneForecaster(zone, CalendarOf(cell));
            IReadOnlyList<ForecastScore> early = [];
            var begin = moments[0].EpochMilliseconds + (long)(Before * Week).TotalMilliseconds;
            foreach (var moment in moments)
            {
                if (early.Count == 0 && moment.EpochMilliseconds >= begin) early = forecaster.Scores();
                var from = Stopwatch.GetTimestamp();
                if (!forecaster.Take(moment)) continue;
                var took = Stopwatch.GetElapsedTime(from).TotalMilliseconds;
                (ticks, most) = (ticks + took, Math.Max(most, took));
                steps++;
            }

            if (args.Contains("--rooms"))
            {
                var found = RoomIdentification.Of(RoomRecord.Of(moments.TakeLast(7 * 1440)).Record!, RoomPriors.Usual).Found!;
                Console.WriteLine(SupplyLoop.Of(forecaster.Course, 2016));
                foreach (var i in found.Intervals) Console.WriteLine(i);
                Console.WriteLine($"base {found.Room[RoomParameter.Base]:0} error {found.ErrorKelvins:0.000} noise {found.AirNoise} {found.Validation}");
                foreach (var w in found.Words) Console.WriteLine(w);
            }
            if (args.Contains("--by-rung")) ForecastTable.PrintRungs(forecaster);
            scores.AddRange(ForecastTable.Since(early, forecaster.Scores()));
        }

        ForecastTable.Print(scores);
        Console.WriteLine(FormattableString.Invariant(
            $"seed {seed}, {weeks} weeks after {Before} of learning, {zones.Count} zones; a forecast with its fits and scores takes {ticks / steps:0.000} ms a step, at most {most:0} ms; {watch.Elapsed.TotalSeconds:0} s"));
    }

    private static List<(Zone Zone, List<ZoneMoment> Moments)> Lived(Cell cell, int seed, int weeks)
    {
        var first = RandomWeek.Of(cell, seed).Options;
        var story = Script.Cycles(Week, week => RandomWeek.Of(cell, (seed * 1000) + week).Story);
        var virtualCell = new VirtualCell(cell, first with { Script = story, KeepsTruth = false });
        var found = cell.Zones.Select(zone => (zone, new List<ZoneMoment>())).ToList();
        for (var week = 0; week < weeks; week++)
        {
            var builder = new FrameBuilder(cell);
            var (begin, end) = (first.Start + (week * Week), first.Start + ((week + 1) * Week));
            virtualCell.Advance(end, reading => builder.Add(reading), _ => { });
            var frame = builder.Build();
            var signals = cell.Zones.Select(zone => new ZoneSignals(cell, zone, frame)).ToList();
            for (var z = 0; z < found.Count; z++)
            {
                var own = ZoneMoments.Of(signals[z], signals.Count > 1 ? signals[(z + 1) % signals.Count] : null);
                found[z].Item2.AddRange(own.Where(m => m.EpochMilliseconds >= begin.ToUnixTimeMilliseconds() && m.EpochMilliseconds < end.ToUnixTimeMilliseconds()));
            }
        }

        return found;
    }

    private static WorkCalendar CalendarOf(Cell cell) =>
        new(cell.Description.Policies.Shifts, TimeZoneInfo.FindSystemTimeZoneById(cell.Description.TimeZone));
}
