using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using ClimateGuard.SystemTests.Support;
using DuckDB.NET.Data;

namespace ClimateGuard.SystemTests;

/// <summary><c>climateguard import</c> and <c>climateguard export</c> as their user types them.</summary>
public sealed class ImportExportTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-import-").FullName;
    private readonly string plant = HandCell.Write();

    public void Dispose()
    {
        Directory.Delete(folder, recursive: true);
        Directory.Delete(Path.GetDirectoryName(plant)!, recursive: true);
    }

    [Fact]
    public async Task Killed_again_and_again_it_ends_with_the_same_rows_as_without_a_kill()
    {
        var file = WriteReadings(800_000);
        var kills = 0;
        var ended = false;
        while (!ended)
        {
            using var run = Start("killed", "import", file);
            var mark = Mark("killed");
            while (!run.HasExited && Mark("killed") == mark)
            {
                await Task.Delay(10);
            }

            ended = run.WaitForExit(kills == 3 ? 60_000 : 300);
            if (!ended)
            {
                run.Kill();
                await run.WaitForExitAsync();
                kills++;
            }
        }

        Assert.InRange(kills, 1, 3);
        Assert.Equal(0, (await RunAsync("whole", "import", file)).ExitCode);
        Assert.Equal(await ExportAsync("whole", "whole.csv"), await ExportAsync("killed", "killed.csv"));
    }

    [Fact]
    public async Task Stopped_by_hand_it_says_that_the_same_command_goes_on()
    {
        var file = WriteReadings(800_000);
        using var run = Start("stopped", "import", file);
        while (Mark("stopped") is null)
        {
            await Task.Delay(10);
        }

        using (var kill = Process.Start("kill", ["-INT", run.Id.ToString(CultureInfo.InvariantCulture)]))
        {
            await kill.WaitForExitAsync();
        }

        await run.WaitForExitAsync();
        Assert.Equal(1, run.ExitCode);
        Assert.Contains("Stopped; the same command goes on.", await run.StandardOutput.ReadToEndAsync(), StringComparison.Ordinal);
        Assert.Contains("rows read after line", (await RunAsync("stopped", "import", file)).Output, StringComparison.Ordinal);
        Assert.Contains("was imported before; nothing changed.", (await RunAsync("stopped", "import", file)).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_worker_that_runs_is_not_disturbed_and_shows_what_came_in()
    {
        await using var broker = await MosquittoBroker.StartNewAsync();
        await using var worker = new WorkerProcess(Path.Combine(folder, "beside"));
        worker.StartRun(broker.Port, plant);
        await worker.UntilReadyAsync();
        var import = RunAsync("beside", "import", WriteReadings(300_000), "--json");
        for (var n = 0; !import.IsCompleted; n++)
        {
            await Shell.PublishAsync(broker.Port, "cg/hand/reading/air/a1", string.Create(CultureInfo.InvariantCulture, $"{20 + (n % 10 / 100.0)}"));
            Assert.Equal("M1", (await worker.GetAsync("/api/v1/machines/M1/outlook")).GetProperty("machine").GetString());
        }

        var (exitCode, output, errors) = await import;
        Assert.True(exitCode == 0, errors);
        Assert.Equal(300_000, JsonSerializer.Deserialize<JsonElement>(output).GetProperty("written").GetInt64());
        var series = await worker.GetAsync("/api/v1/series?sensor=air/a1&from=2026-03-02T06:00:00Z&to=2026-03-02T06:00:05Z&points=10");
        Assert.Equal(5, series.GetProperty("points").GetArrayLength());
        Assert.False(worker.Log.Contains("again", StringComparison.Ordinal), worker.Log);
    }

    [Fact]
    public async Task Another_program_reads_the_parquet_as_the_csv_says_it_and_its_own_parquet_is_imported()
    {
        File.WriteAllText(Path.Combine(folder, "few.csv"), "time,sensor,value,unit\n2026-03-02T06:00:00.123Z,air/a1,20.137,C\n2026-03-02T06:00:10Z,air/a1,850,C\n2026-03-02T06:00:20Z,air/a1,68.1,F\n");
        await RunAsync("few", "import", Path.Combine(folder, "few.csv"));
        await ExportAsync("few", "few.parquet");
        var csv = await ExportAsync("few", "out.csv");

        Assert.Equal(
            ["2026-03-02 06:00:00.123|air/a1|20.137|C|20.137|accepted|", "2026-03-02 06:00:10|air/a1||C|850.0|quarantined|sentinel",
                "2026-03-02 06:00:20|air/a1|20.055555555555554|C|20.055555555555554|accepted|"],
            Ask($"SELECT concat_ws('|', (time AT TIME ZONE 'UTC')::VARCHAR, sensor, coalesce(value::VARCHAR, ''), unit, raw::VARCHAR, trust, reason) FROM '{folder}/few.parquet' ORDER BY time"));
        Assert.Equal(["TIMESTAMP WITH TIME ZONE"], Ask($"SELECT DISTINCT typeof(time) FROM '{folder}/few.parquet'"));
        Ask($"COPY (SELECT * FROM '{folder}/few.parquet') TO '{folder}/foreign.parquet' (FORMAT parquet)");
        Assert.Equal(0, (await RunAsync("foreign", "import", Path.Combine(folder, "foreign.parquet"))).ExitCode);
        Assert.Equal(csv, await ExportAsync("foreign", "out2.csv"));
    }

    [Fact]
    public async Task What_cannot_be_used_ends_with_2_one_line_and_nothing_half_written()
    {
        File.WriteAllText(Path.Combine(folder, "bad.csv"), "time,sensor,value,unit\n2026-03-02T06:00:00Z,air/a2,20,C\n");
        File.WriteAllText(Path.Combine(folder, "garbage.parquet"), "PAR1 and then nothing that could be read");
        foreach (var arguments in (string[][])[
            ["export", "--out", Path.Combine(folder, "out.csv")],
            ["export", "--out", Path.Combine(folder, "out.xlsx")],
            ["export", "--out", Path.Combine(folder, "out.csv"), "--sensor", "air/a2"],
            ["export", "--out", Path.Combine(folder, "out.csv"), "--from", "yesterday"],
            ["import", Path.Combine(folder, "absent.csv")],
            ["import", Path.Combine(folder, "garbage.parquet")],
            ["import", Path.Combine(folder, "bad.csv")]])
        {
            var (exitCode, _, errors) = await RunAsync(arguments[0] == "export" ? "empty" : "bad", arguments);
            Assert.Equal(2, exitCode);
            Assert.Single(errors.Trim().Split('\n'));
        }

        Assert.Empty(Directory.GetFiles(folder, "out*"));
        Assert.False(Directory.Exists(Path.Combine(folder, "empty")));
    }

    private static List<string> Ask(string sql)
    {
        using var connection = new DuckDBConnection("DataSource=:memory:");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var found = new List<string>();
        while (reader.Read())
        {
            found.Add(reader.GetValue(0).ToString()!);
        }

        return found;
    }

    private string WriteReadings(int count)
    {
        var path = Path.Combine(folder, $"readings-{count}.csv");
        using var writer = new StreamWriter(path);
        writer.WriteLine("time,sensor,value,unit");
        for (var n = 0; n < count; n++)
        {
            writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Begin.AddSeconds(n):yyyy-MM-ddTHH:mm:ssZ},air/a1,{20 + (n % 100 / 100.0)},C"));
        }

        return path;
    }

    private async Task<string> ExportAsync(string store, string file)
    {
        var path = Path.Combine(folder, file);
        Assert.Equal(0, (await RunAsync(store, "export", "--out", path)).ExitCode);
        return await File.ReadAllTextAsync(path);
    }

    private string? Mark(string store) =>
        Path.Combine(folder, store, "imports.json") is var path && File.Exists(path) ? File.ReadAllText(path) : null;

    private async Task<(int ExitCode, string Output, string Errors)> RunAsync(string store, params string[] arguments)
    {
        using var run = Start(store, arguments);
        var output = run.StandardOutput.ReadToEndAsync();
        var errors = run.StandardError.ReadToEndAsync();
        await run.WaitForExitAsync(new CancellationTokenSource(TimeSpan.FromSeconds(120)).Token);
        return (run.ExitCode, await output, await errors);
    }

    private Process Start(string store, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [WorkerProcess.Program, .. arguments, "--plant", plant])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder,
        };
        start.Environment["CLIMATEGUARD_Storage__Path"] = Path.Combine(folder, store);
        return Process.Start(start)!;
    }
}
