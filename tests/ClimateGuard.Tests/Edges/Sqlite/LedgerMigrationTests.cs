using ClimateGuard.Edges.Sqlite;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;
using Microsoft.Data.Sqlite;

namespace ClimateGuard.Tests.Edges.Sqlite;

/// <summary>A ledger as the release before the chain wrote it.</summary>
public sealed class LedgerMigrationTests : IDisposable
{
    // Copied from that release, and never to be changed.
    private const string FirstShape =
        """
        CREATE TABLE line(seq INTEGER PRIMARY KEY, time TEXT NOT NULL, kind TEXT NOT NULL, machine TEXT, json TEXT NOT NULL);
        CREATE INDEX line_kind ON line(kind);
        CREATE INDEX line_machine ON line(machine, kind);
        CREATE TRIGGER line_is_never_changed BEFORE UPDATE ON line BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
        CREATE TRIGGER line_is_never_removed BEFORE DELETE ON line BEGIN SELECT RAISE(ABORT, 'the ledger only grows'); END;
        PRAGMA user_version = 1;
        INSERT INTO line(time, kind, machine, json) VALUES('2026-03-02T06:00:00.1234567Z', 'config', NULL, '{"version":"1"}');
        INSERT INTO line(time, kind, machine, json) VALUES('2026-03-02T06:00:01.0000000Z', 'outlook', 'M1', '{"text":"µm","level":"hold"}');
        INSERT INTO line(time, kind, machine, json) VALUES('2026-03-02T06:00:02.0000000Z', 'alert', 'M1', '{}');
        """;

    private static readonly CancellationToken None = CancellationToken.None;

    private readonly TemporaryStore place = new();

    public void Dispose() => place.Dispose();

    [Fact]
    public async Task Its_lines_are_chained_at_the_first_opening_and_the_chain_goes_on()
    {
        WriteFirstShape();
        using (var ledger = place.OpenLedger())
        {
            await ledger.AppendAsync([new LedgerLine(new DateTimeOffset(2026, 3, 3, 0, 0, 0, TimeSpan.Zero), "notice", null, "{}")], None);
        }

        using var again = place.OpenLedger();
        using var view = SqliteLedgerView.Open(place.Storage);
        var lines = await again.ReadAsync(0, 10, None);

        Assert.Empty(place.Complaints);
        Assert.Equal(3, view.OlderLines);
        Assert.Equal("""{"text":"µm","level":"hold"}""", lines[1].Line.Json);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero).AddTicks(1234567), lines[0].Line.Time);
        Assert.Equal([1, 2, 3, 4], lines.Select(entry => entry.Seq));
        Assert.Null(LedgerChain.Verify("cell1", view.AsOfNow()).Break);
    }

    [Fact]
    public void It_still_only_grows()
    {
        WriteFirstShape();
        place.OpenLedger().Dispose();
        Assert.Throws<SqliteException>(() => Do("UPDATE line SET json = '{}' WHERE seq = 2"));
        Assert.Throws<SqliteException>(() => Do("DELETE FROM line WHERE seq = 2"));
    }

    [Fact]
    public void A_gap_from_before_is_not_papered_over()
    {
        WriteFirstShape();
        Do("DROP TRIGGER line_is_never_removed; DELETE FROM line WHERE seq = 2");
        place.OpenLedger().Dispose();
        using var view = SqliteLedgerView.Open(place.Storage);
        Assert.Equal((2, LedgerFault.Missing), (LedgerChain.Verify("cell1", view.AsOfNow()).Break?.Seq, LedgerChain.Verify("cell1", view.AsOfNow()).Break?.Fault));
    }

    [Fact]
    public void Before_a_worker_has_opened_it_the_check_says_what_to_do()
    {
        WriteFirstShape();
        var fault = Assert.Throws<StoreUnavailableException>(() => SqliteLedgerView.Open(place.Storage));
        Assert.Contains("Start the worker once on it", fault.Message, StringComparison.Ordinal);
    }

    private void WriteFirstShape()
    {
        Directory.CreateDirectory(place.Folder);
        Do(FirstShape);
    }

    private void Do(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={place.LedgerPath};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
