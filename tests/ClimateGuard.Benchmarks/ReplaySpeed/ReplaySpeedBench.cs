using System.Diagnostics;
using System.Security.Cryptography;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Edges.Replay;

namespace ClimateGuard.Benchmarks.ReplaySpeed;

/// <summary>
/// How much faster than the shop a replay is: the scripted week, all sensors and machines of the sample plant. Run it on a Release
/// build: <c>dotnet run -c Release --project tests/ClimateGuard.Benchmarks -- replay-speed [days]</c>.
/// </summary>
internal static class ReplaySpeedBench
{
    public static async Task RunAsync(double days)
    {
        var plant = PlantFileReader.Read(Path.Combine("config", "plant.yaml"));
        var folder = Directory.CreateTempSubdirectory("climateguard-replay-").FullName;
        var (readings, events) = (Path.Combine(folder, "readings.csv"), Path.Combine(folder, "events.jsonl"));
        var (rows, lines) = DemoWeek.Write(plant.Cell!, TimeSpan.FromDays(days), readings, events);
        Console.WriteLine(FormattableString.Invariant(
            $"{days} days, {plant.Cell!.Sensors.Count} sensors, {plant.Cell.Machines.Count} machines, {rows} readings, {lines} events; {Environment.ProcessorCount} cores, .NET {Environment.Version}, load average {File.ReadAllText("/proc/loadavg").Split(' ')[0]}"));
        Console.WriteLine();
        Console.WriteLine("| what | wall s | processor s | lines | times real time | by processor time | output |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- |");
        foreach (var every in (TimeSpan?[])[null, TimeSpan.FromMinutes(1)])
        {
            var before = Process.GetCurrentProcess().TotalProcessorTime;
            var begin = Stopwatch.GetTimestamp();
            var result = await ReplayRun.RunAsync(
                new ReplayQuestion
                {
                    Cell = plant.Cell, ConfigVersion = plant.ConfigVersion, Readings = readings, Events = events, Out = Path.Combine(folder, "out.jsonl"), Every = every,
                },
                CancellationToken.None);
            var (wall, busy) = (Stopwatch.GetElapsedTime(begin).TotalSeconds, (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds);
            Console.WriteLine(FormattableString.Invariant(
                $"| {(every is null ? "changes only" : "an outlook each minute")} | {wall:0.0} | {busy:0.0} | {result.Lines} | {days * 86_400 / wall:0} | {days * 86_400 / busy:0} | {Mark(Path.Combine(folder, "out.jsonl"))} |"));
        }

        Directory.Delete(folder, recursive: true);
    }

    /// <summary>The begin of the hash of what was written: two builds that decide the same show the same.</summary>
    private static string Mark(string path)
    {
        using var file = File.OpenRead(path);
        return Convert.ToHexString(SHA256.HashData(file))[..8];
    }
}
