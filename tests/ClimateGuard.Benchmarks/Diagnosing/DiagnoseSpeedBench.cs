using System.Diagnostics;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Enclosure;
using ClimateGuard.Plant;
using ClimateGuard.Simulator;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Benchmarks.Diagnosing;

/// <summary><c>diagnose-speed</c>: thirty days of the sample cell, from five simulated days set one after another six times.</summary>
internal static class DiagnoseSpeedBench
{
    private const int SimulatedDays = 5;
    private const int Repeats = 6;

    public static void Run()
    {
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell ?? throw new InvalidOperationException("config/plant.yaml does not pass its checks");
        var start = new DateTimeOffset(2026, 6, 1, 0, 0, 0, TimeSpan.Zero);
        var builder = new FrameBuilder(cell);
        var building = Stopwatch.StartNew();
        var readings = 0L;
        var virtualCell = new VirtualCell(cell, new VirtualCellOptions(1, start, Script.Empty));
        var once = new List<Reading>();
        virtualCell.Advance(start.AddDays(SimulatedDays), once.Add, _ => { });
        building.Restart();
        for (var repeat = 0; repeat < Repeats; repeat++)
        {
            var shift = (long)TimeSpan.FromDays(SimulatedDays * repeat).TotalMilliseconds;
            foreach (var reading in once) builder.Add(reading with { EpochMilliseconds = reading.EpochMilliseconds + shift });
            readings += once.Count;
        }

        var frame = builder.Build();
        Console.WriteLine(FormattableString.Invariant($"{readings} readings of {cell.Sensors.Count} sensors into minutes: {building.Elapsed.TotalSeconds:0.00} s"));
        for (var run = 0; run < 3; run++)
        {
            var watch = Stopwatch.StartNew();
            var report = Diagnosis.Of(frame, cell, new DiagnosisOptions { ByDay = true });
            Console.WriteLine(FormattableString.Invariant($"diagnosis of {SimulatedDays * Repeats} days: {watch.Elapsed.TotalSeconds:0.00} s, {report.Findings.Count} assessments"));
        }
    }
}
