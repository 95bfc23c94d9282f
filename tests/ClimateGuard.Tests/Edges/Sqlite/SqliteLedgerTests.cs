using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite;

public sealed class SqliteLedgerTests : IDisposable
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();

    public void Dispose() => place.Dispose();

    [Theory]
    [InlineData("UPDATE line SET json = '{}'")]
    [InlineData("DELETE FROM line")]
    public async Task The_record_only_grows(string slip)
    {
        using var ledger = place.OpenLedger();
        await ledger.AppendAsync([new LedgerLine(Begin, "alert", null, """{"a":1}""")], None);
        using var connection = new SqliteConnection($"Data Source={place.LedgerPath};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = slip;

        Assert.Throws<SqliteException>(() => command.ExecuteNonQuery());
        Assert.Equal("""{"a":1}""", (await ledger.NewestAsync(null, null, 1, None)).Single().Line.Json);
    }

    [Fact]
    public async Task A_ledger_held_by_another_program_says_so_and_has_none_of_the_lines()
    {
        using var ledger = place.OpenLedger();
        using var other = new SqliteConnection($"Data Source={place.LedgerPath};Pooling=False");
        other.Open();
        using (other.BeginTransaction(deferred: false))
        {
            var fault = await Assert.ThrowsAsync<StoreUnavailableException>(
                async () => await ledger.AppendAsync([new LedgerLine(Begin, "alert", null, "{}")], None));
            Assert.Contains("another program holds it", fault.Message, StringComparison.Ordinal);
            Assert.Contains("None of these lines is in the ledger", fault.Message, StringComparison.Ordinal);
        }

        await ledger.AppendAsync([new LedgerLine(Begin, "alert", null, "{}")], None);
        Assert.Single(await ledger.NewestAsync(null, null, 10, None));
    }

    [Fact]
    public void The_ledger_of_another_cell_is_refused()
    {
        place.OpenLedger().Dispose();

        var fault = Assert.Throws<StoreUnavailableException>(() => SqliteLedger.Open(place.Storage, "cell2", place.Clock, place));

        Assert.Contains("is the ledger of cell cell1, and the plant file describes cell cell2", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_text_with_a_zero_byte_inside_does_not_pass_as_its_beginning()
    {
        using var ledger = place.OpenLedger();
        await ledger.AppendAsync([new LedgerLine(Begin, "alert", null, "{}")], None);
        using (var connection = new SqliteConnection($"Data Source={place.LedgerPath};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "DROP TRIGGER line_is_never_changed; UPDATE line SET json = CAST(x'7b7d00ff' AS TEXT)";
            command.ExecuteNonQuery();
        }

        Assert.Equal(LedgerFault.Changed, (await ledger.VerifyAsync("cell1", null, None)).Break?.Fault);
    }

    [Fact]
    public async Task A_line_slipped_in_below_the_first_number_is_seen()
    {
        using var ledger = place.OpenLedger();
        await ledger.AppendAsync([new LedgerLine(Begin, "alert", null, "{}")], None);
        using (var connection = new SqliteConnection($"Data Source={place.LedgerPath};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "INSERT INTO line SELECT -5, time, kind, machine, json, hash FROM line";
            command.ExecuteNonQuery();
        }

        using var view = SqliteLedgerView.Open(place.Storage);
        Assert.Equal(LedgerFault.Reordered, LedgerChain.Verify("cell1", view.AsOfNow()).Break?.Fault);
    }

    [Fact]
    public void Two_workers_that_make_the_file_at_once_both_open_it()
    {
        var opened = new SqliteLedger[4];
        Parallel.For(0, opened.Length, n => opened[n] = place.OpenLedger());
        Assert.All(opened, ledger => ledger.Dispose());
        Assert.Empty(place.Complaints);
    }
}
