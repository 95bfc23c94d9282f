using System.Diagnostics;
using System.Globalization;
using ClimateGuard.Edges.Board;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;

namespace ClimateGuard.Benchmarks.EvidenceSpeed;

/// <summary>
/// 100 000 results with hole vectors against a year of readings, as the verb does it, and beside it the bare reading of the same rows in the same process.
/// <c>dotnet run -c Release --project tests/ClimateGuard.Benchmarks -- evidence-speed [--results 100000] [--days 365] [--json FILE]</c>;
/// the file takes the whole answer, so that two versions of the program can be compared byte for byte.
/// </summary>
internal static class EvidenceSpeedBench
{
    public static async Task RunAsync(string[] args)
    {
        var (results, days) = (Options.Whole(args, "--results", 100_000), Options.Whole(args, "--days", 365));
        var cell = PlantFileReader.Read(Repository.PathOf("config", "plant.yaml")).Cell ?? throw new InvalidOperationException("The sample plant file is not valid.");
        var folder = Path.Combine(Path.GetTempPath(), FormattableString.Invariant($"climateguard-evidence-speed-{results}-{days}"));
        if (args.Contains("--make"))
        {
            await new YearOfCuts(cell, results, days).WriteAsync(folder);
            return;
        }

        // The files are made by a process of their own: what that needs is not memory of the evidence.
        if (!File.Exists(Path.Combine(folder, "readings.parquet"))) await MakeAsync(args);
        var (rows, ceiling, ceilingCpu) = await BareAsync(Path.Combine(folder, "readings.parquet"), cell);
        var before = Peak();
        var data = await MeasureAsync(cell, folder, rows, ceiling, ceilingCpu, before);
        if (Options.Text(args, "--json") is { } json) await File.WriteAllBytesAsync(json, EvidenceJson.ToUtf8(data));
    }

    private static async Task MakeAsync(string[] args)
    {
        using var making = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, [.. Environment.GetCommandLineArgs()[..1].Where(one => one.EndsWith(".dll", StringComparison.Ordinal)), .. args, "--make"]))!;
        await making.WaitForExitAsync();
        if (making.ExitCode != 0) throw new InvalidOperationException("The files could not be made.");
    }

    private static async Task<(long Rows, TimeSpan Time, TimeSpan Cpu)> BareAsync(string file, Cell cell)
    {
        var (clock, cpu) = (Stopwatch.StartNew(), Cpu());
        using var input = await ReadingsInput.OpenAsync(file, cell, default);
        var batch = new InputBatch(10_000);
        var rows = 0L;
        while (await input.ReadAsync(batch, long.MaxValue, default)) rows += batch.Count;
        return (rows + batch.Count, clock.Elapsed, Cpu() - cpu);
    }

    private static async Task<BoardData> MeasureAsync(Cell cell, string folder, long rows, TimeSpan ceiling, TimeSpan ceilingCpu, long before)
    {
        var stages = new List<(string Name, double Seconds, double Cpu)>();
        var (clock, last, lastCpu, told) = (Stopwatch.StartNew(), 0.0, Cpu().TotalSeconds, 0);
        var cpu = Cpu();
        void Next(string name)
        {
            if (stages.Count > 0) stages[^1] = (stages[^1].Name, clock.Elapsed.TotalSeconds - last, Cpu().TotalSeconds - lastCpu);
            stages.Add((name, 0, 0));
            (last, lastCpu) = (clock.Elapsed.TotalSeconds, Cpu().TotalSeconds);
        }

        Next("importing");
        var import = InspectionFile.Read(await File.ReadAllBytesAsync(Path.Combine(folder, "results.csv")), cell);
        if (import.Problems.Count > 0) throw new InvalidOperationException(import.Problems[0]);
        var data = await EvidenceRun.RunAsync(
            new EvidenceFiles
            {
                Cell = cell, ConfigVersion = "speed", Readings = Path.Combine(folder, "readings.parquet"), Events = Path.Combine(folder, "events.jsonl"),
                Values = import.Values, ResultsSha256 = "speed",
            },
            (name, _, _) =>
            {
                told++;
                if (stages[^1].Name != name) Next(name);
            },
            default);
        Next("done");
        Print(data, import.Values.Count, rows, (ceiling, ceilingCpu), (clock.Elapsed, Cpu() - cpu), stages, before, told);
        return data;
    }

    private static void Print(
        BoardData data, int values, long rows, (TimeSpan Time, TimeSpan Cpu) ceiling, (TimeSpan Time, TimeSpan Cpu) whole, List<(string Name, double Seconds, double Cpu)> stages, long before, int told)
    {
        string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
        Console.WriteLine(Text($"{values} results, {data.Answer.Features.Count} features of parts, {rows} readings, {Environment.ProcessorCount} cores, load average {File.ReadAllText("/proc/loadavg")[..14]}"));
        Console.WriteLine("| what | s | core-s |");
        Console.WriteLine("| --- | --- | --- |");
        Console.WriteLine(Text($"| merely reading the same rows (ceiling) | {ceiling.Time.TotalSeconds:0.0} | {ceiling.Cpu.TotalSeconds:0.0} |"));
        foreach (var (name, seconds, cpu) in stages.SkipLast(1)) Console.WriteLine(Text($"| {name} | {seconds:0.0} | {cpu:0.0} |"));
        Console.WriteLine(Text($"| all | {whole.Time.TotalSeconds:0.0} | {whole.Cpu.TotalSeconds:0.0} |"));
        Console.WriteLine(Text($"ratio to the ceiling {whole.Time / ceiling.Time:0.0} in time, {whole.Cpu / ceiling.Cpu:0.0} in core-seconds; peak memory {Peak() >> 20} MB ({before >> 20} MB before); progress told {told} times"));
    }

    private static TimeSpan Cpu() => Process.GetCurrentProcess().TotalProcessorTime;

    private static long Peak() => Process.GetCurrentProcess().PeakWorkingSet64;
}
