using System.Text.Json;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;

namespace ClimateGuard.SystemTests.Ledger;

/// <summary><c>climateguard ledger</c> as its user types it.</summary>
public sealed class LedgerCommandTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-ledger-").FullName;

    private string Settings => Path.Combine(folder, "settings.json");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_whole_ledger_is_said_to_be_whole_while_a_worker_has_it_open_and_its_export_too()
    {
        using var ledger = await FillAsync();
        var export = Path.Combine(folder, "out.jsonl");

        var (exitCode, output, errors) = await WorkerProcess.RunToEndAsync("ledger", "verify", "--settings", Settings);
        Assert.Equal((0, ""), (exitCode, errors));
        Assert.Contains("cell cell1 is whole: 4 lines, from 2026-03-02 06:00:00Z to 2026-03-02 06:00:03Z", output, StringComparison.Ordinal);

        Assert.Equal(0, (await WorkerProcess.RunToEndAsync("ledger", "export", "--out", export, "--settings", Settings)).ExitCode);
        var (fileCode, fileOutput, _) = await WorkerProcess.RunToEndAsync("ledger", "verify", "--file", export, "--json");
        var said = JsonSerializer.Deserialize<JsonElement>(fileOutput);
        Assert.Equal(0, fileCode);
        Assert.True(said.GetProperty("ok").GetBoolean());
        Assert.Equal((await ledger.NewestAsync(null, null, 1, CancellationToken.None))[0].Head.ToString(), said.GetProperty("head").GetString());
    }

    [Fact]
    public async Task A_bent_ledger_ends_with_1_and_names_the_line_its_time_and_what_is_wrong()
    {
        (await FillAsync()).Dispose();
        using (var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "store", "ledger.db")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "DROP TRIGGER line_is_never_changed; UPDATE line SET json = '{\"answer\":\"GO\"}' WHERE seq = 2";
            command.ExecuteNonQuery();
        }

        var (exitCode, output, _) = await WorkerProcess.RunToEndAsync("ledger", "verify", "--settings", Settings);
        Assert.Equal(1, exitCode);
        Assert.Contains("BROKEN at line 2 of 2026-03-02T06:00:01.0000000Z: it was changed after it was written", output, StringComparison.Ordinal);

        var (jsonCode, json, _) = await WorkerProcess.RunToEndAsync("ledger", "verify", "--settings", Settings, "--json");
        var broken = JsonSerializer.Deserialize<JsonElement>(json).GetProperty("broken");
        Assert.Equal(1, jsonCode);
        Assert.Equal((2, "changed"), (broken.GetProperty("seq").GetInt64(), broken.GetProperty("fault").GetString()));
    }

    [Fact]
    public async Task What_cannot_be_read_ends_with_2_and_one_line()
    {
        await WriteSettingsAsync();
        foreach (var arguments in (string[][])[
            ["ledger", "verify", "--settings", Settings],
            ["ledger", "verify", "--settings", Settings + "x"],
            ["ledger", "verify", "--file", Settings],
            ["ledger", "verify", "--head", "12"],
            ["ledger", "export", "--settings", Settings, "--out", Path.Combine(folder, "out.jsonl")]])
        {
            var (exitCode, output, errors) = await WorkerProcess.RunToEndAsync(arguments);
            Assert.Equal((2, ""), (exitCode, output));
            Assert.Single(errors.Trim().Split('\n'));
        }

        Assert.Equal([Settings], Directory.GetFileSystemEntries(folder));
    }

    private async Task<SqliteLedger> FillAsync()
    {
        await WriteSettingsAsync();
        var ledger = SqliteLedger.Open(
            new SqliteStorage { Folder = Path.Combine(folder, "store") }, "cell1", TimeProvider.System, NullLogger.Instance);
        await ledger.AppendAsync(
            [.. Enumerable.Range(0, 4).Select(n => new LedgerLine(Begin.AddSeconds(n), "answer", "M1", """{"answer":"HOLD"}"""))], CancellationToken.None);
        return ledger;
    }

    private Task WriteSettingsAsync() => File.WriteAllTextAsync(
        Settings, JsonSerializer.Serialize(new { Storage = new { Path = Path.Combine(folder, "store") } }));
}
