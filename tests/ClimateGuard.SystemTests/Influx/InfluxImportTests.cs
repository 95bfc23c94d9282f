using System.Globalization;
using System.Text;
using System.Text.Json;
using ClimateGuard.Edges.Influx;
using ClimateGuard.SystemTests.Support;

namespace ClimateGuard.SystemTests.Influx;

/// <summary><c>import</c> and <c>export</c> with <c>Storage:Kind</c> = <c>influx</c>, beside the same with SQLite.</summary>
public sealed class InfluxImportTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-influx-import-").FullName;
    private readonly string plant = HandCell.Write();

    public void Dispose()
    {
        Directory.Delete(folder, recursive: true);
        Directory.Delete(Path.GetDirectoryName(plant)!, recursive: true);
    }

    [Fact]
    public async Task What_was_imported_into_influxdb_is_exported_as_from_sqlite_to_the_byte()
    {
        await using var server = await InfluxServer.StartNewAsync();
        var influx = Settings("influx", await server.NewDatabaseAsync());
        var sqlite = Settings("sqlite", null);
        var judged = Write(
            "judged.csv",
            "time,sensor,value,unit,raw,trust,reason,stamp\n"
            + "2026-03-02T05:00:00.000Z,air/a1,20.1,C,20.3,corrected,calibrated,\n"
            + "2026-03-02T05:00:10.000Z,air/a1,20.2,C,20.2,corrected,clockOffset,2026-03-02T05:07:10.000Z\n"
            + "2026-03-02T05:00:10.000Z,air/a1,,C,-127,quarantined,sentinel,2026-03-02T05:07:10.000Z\n");
        foreach (var settings in new[] { influx, sqlite })
        {
            // More than a page of the answers, a value that is set aside, and the same file again.
            Assert.Contains("30000 rows read, 30000 of them new", await DoneAsync("import", settings, Rows(0, 30_000)), StringComparison.Ordinal);
            Assert.Contains("3 rows read, 3 of them new", await DoneAsync("import", settings, judged), StringComparison.Ordinal);
            Assert.Contains("was imported before; nothing changed", await DoneAsync("import", settings, judged), StringComparison.Ordinal);
        }

        Assert.Equal(await ExportAsync(sqlite, "sqlite.csv"), await ExportAsync(influx, "influx.csv"));
        Assert.Equal(30_004, (await File.ReadAllLinesAsync(Path.Combine(folder, "influx.csv"))).Length);
    }

    [Fact]
    public async Task While_influxdb_is_down_an_import_says_at_its_end_what_waits_and_the_same_command_brings_it_in()
    {
        await using var server = await InfluxServer.StartNewAsync();
        var settings = Settings("down", await server.NewDatabaseAsync());
        var (first, second) = (Rows(0, 3_000), Rows(3_000, 5_000));
        await DoneAsync("import", settings, first);
        await server.KillAsync();

        var (exitCode, output, errors) = await RunAsync("import", settings, second, "--json");
        Assert.Equal(1, exitCode);
        var waits = JsonSerializer.Deserialize<JsonElement>(output);
        Assert.Equal((true, 0), (waits.GetProperty("done").GetBoolean(), waits.GetProperty("written").GetInt64()));
        Assert.Contains("Not in InfluxDB yet: ", waits.GetProperty("waits").GetString(), StringComparison.Ordinal);
        Assert.Contains($"wait on disk in {Path.Combine(folder, "down", "import")}. Nothing is lost: the same command brings them in", errors, StringComparison.Ordinal);
        Assert.Contains("Is it running, and is Influx:Url right?", errors, StringComparison.Ordinal);

        await server.StartAsync();
        Assert.Contains("was imported before", await DoneAsync("import", settings, second), StringComparison.Ordinal);
        var exported = await ExportAsync(settings, "after.csv");
        Assert.Equal(Lines(0, 5_000), exported.TrimEnd('\n').Split('\n').Skip(1).Select(line => string.Join(',', line.Split(',')[..4])));
    }

    private static IEnumerable<string> Lines(int from, int to) => Enumerable.Range(from, to - from).Select(n => string.Create(
        CultureInfo.InvariantCulture, $"{Begin.AddSeconds(n):yyyy-MM-ddTHH:mm:ss.fffZ},air/a1,{(n == 777 ? "" : (20 + (Math.Abs((n % 200) - 100) / 100.0)).ToString(CultureInfo.InvariantCulture))},C"));

    private string Rows(int from, int to)
    {
        var text = new StringBuilder("time,sensor,value,unit\n").AppendJoin('\n', Lines(from, to)).Append('\n');
        return Write(string.Create(CultureInfo.InvariantCulture, $"rows-{from}.csv"), text.ToString().Replace(",,C", ",850,C", StringComparison.Ordinal));
    }

    private string Write(string name, string text)
    {
        var path = Path.Combine(folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    private string Settings(string name, InfluxSettings? influx) => Write(
        name + ".json",
        JsonSerializer.Serialize(new { Storage = new { Kind = influx is null ? "sqlite" : "influx", Path = Path.Combine(folder, name) }, Influx = influx ?? new InfluxSettings() }));

    private async Task<string> ExportAsync(string settings, string name)
    {
        var path = Path.Combine(folder, name);
        await DoneAsync("export", settings, "--out", path);
        return await File.ReadAllTextAsync(path);
    }

    private async Task<string> DoneAsync(string verb, string settings, params string[] arguments)
    {
        var (exitCode, output, errors) = await RunAsync(verb, settings, arguments);
        Assert.True(exitCode == 0, $"{verb}: {output}{errors}");
        return output;
    }

    private Task<(int ExitCode, string Output, string Errors)> RunAsync(string verb, string settings, params string[] arguments) =>
        WorkerProcess.RunToEndAsync([verb, .. arguments, "--plant", plant, "--settings", settings]);
}
