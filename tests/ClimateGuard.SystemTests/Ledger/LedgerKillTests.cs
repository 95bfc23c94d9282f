using System.Globalization;
using System.Text.Json;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.Sqlite;
using ClimateGuard.SystemTests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.SystemTests.Ledger;

/// <summary>Processes that are killed in the middle of writing, and processes that want to write at the same time.</summary>
public sealed class LedgerKillTests : IDisposable
{
    private const int Rounds = 20;

    private readonly string folder = Directory.CreateTempSubdirectory("climateguard-ledger-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Kill_9_in_the_middle_of_appends_leaves_the_chain_of_the_store_whole_and_loses_no_line_that_was_committed()
    {
        for (var round = 0; round < Rounds; round++)
        {
            var committed = await KillAtRandomAsync(LedgerChild.AppendSqlite(folder), round);

            using var view = SqliteLedgerView.Open(new SqliteStorage { Folder = folder });
            var verdict = LedgerChain.Verify(LedgerChild.CellId, view.AsOfNow());
            Assert.Null(verdict.Break);
            Assert.InRange(verdict.Lines, committed, committed + 5);
        }
    }

    [Fact]
    public async Task Kill_9_in_the_middle_of_appends_leaves_the_chain_of_json_lines_whole_up_to_a_torn_end()
    {
        var file = Path.Combine(folder, "ledger.jsonl");
        for (var round = 0; round < Rounds; round++)
        {
            var committed = await KillAtRandomAsync(LedgerChild.AppendJsonLines(file), round);

            using var ledger = JsonLinesLedger.Open(file, LedgerChild.CellId, Microsoft.Extensions.Logging.Abstractions.NullLogger.Instance);
            var verdict = await ledger.VerifyAsync(LedgerChild.CellId, null, CancellationToken.None);
            Assert.Null(verdict.Break);
            Assert.InRange(verdict.Lines, committed, committed + 5);
        }
    }

    [Fact]
    public async Task Of_processes_that_compete_and_sleep_over_their_lease_none_writes_after_another_took_over()
    {
        string[] ends;
        using (var one = LedgerChild.Contend(folder))
        using (var two = LedgerChild.Contend(folder))
        {
            await Task.Delay(TimeSpan.FromSeconds(8));
            ends = [await one.KillAsync(), await two.KillAsync()];
        }

        using var view = SqliteLedgerView.Open(new SqliteStorage { Folder = folder });
        var entries = view.AsOfNow().ToArray();
        var tokens = entries.Select(entry => JsonSerializer.Deserialize<JsonElement>(entry.Line.Json).GetProperty("token").GetInt64()).ToArray();
        Assert.Null(LedgerChain.Verify(LedgerChild.CellId, entries).Break);
        Assert.Equal(tokens.Order(), tokens);
        Assert.True(tokens[^1] >= 4, $"the lease changed hands up to {tokens[^1]} only");
        Assert.All(ends, end => Assert.Contains("lost ", end, StringComparison.Ordinal));
    }

    private static async Task<long> KillAtRandomAsync(LedgerChild child, int round)
    {
        using (child)
        {
            var random = new Random(round);
            string? last = null;
            for (var appends = random.Next(1, 12); appends > 0; appends--)
            {
                last = await child.ReadLineAsync();
            }

            await Task.Delay(TimeSpan.FromMilliseconds(random.NextDouble() * 8));
            var rest = await child.KillAsync();
            var whole = rest[..(rest.LastIndexOf('\n') + 1)].Split('\n', StringSplitOptions.RemoveEmptyEntries);
            return long.Parse(whole.LastOrDefault() ?? last!, CultureInfo.InvariantCulture);
        }
    }
}
