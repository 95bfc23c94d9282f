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

    [Fact]
    public async Task Lines_come_back_as_they_were_written_newest_first_and_after_a_restart()
    {
        // To the tick, and from another time zone: the same moment comes back.
        LedgerLine[] lines =
        [
            new(Begin.AddTicks(1234567), "config", null, """{"a":1}"""),
            new(new DateTimeOffset(2026, 3, 2, 8, 0, 1, TimeSpan.FromHours(2)), "outlook", "m1", """{"text":"µm \"20 °C\""}"""),
        ];
        using (var ledger = place.OpenLedger())
        {
            await ledger.AppendAsync(lines, None);
        }

        using var again = place.OpenLedger();
        Assert.Equal(lines.Reverse(), await again.NewestAsync(null, null, 10, None));
    }

    [Theory]
    [InlineData(null, null, 10, new[] { 5, 4, 3, 2, 1, 0 })]
    [InlineData(null, null, 2, new[] { 5, 4 })]
    [InlineData("alert", null, 10, new[] { 5, 3, 1 })]
    [InlineData(null, "m1", 10, new[] { 4, 1 })]
    [InlineData("alert", "m1", 10, new[] { 1 })]
    [InlineData("alert", "nobody", 10, new int[0])]
    public async Task The_newest_lines_are_found_by_kind_and_machine(string? kind, string? machine, int most, int[] expected)
    {
        string?[] machines = ["m0", "m1", null];
        using var ledger = place.OpenLedger();
        await ledger.AppendAsync(
            [.. Enumerable.Range(0, 6).Select(n => new LedgerLine(Begin.AddSeconds(n), n % 2 == 1 ? "alert" : "outlook", machines[n % 3], $"{{\"n\":{n}}}"))],
            None);

        var found = await ledger.NewestAsync(kind, machine, most, None);

        Assert.Equal(expected.Select(n => Begin.AddSeconds(n)), found.Select(line => line.Time));
    }

    [Fact]
    public async Task A_batch_with_a_line_that_says_nothing_is_refused_whole()
    {
        using var ledger = place.OpenLedger();
        await Assert.ThrowsAsync<ArgumentException>(async () => await ledger.AppendAsync(
            [new LedgerLine(Begin, "alert", null, "{}"), new LedgerLine(Begin, "alert", null, "")], None));
        Assert.Empty(await ledger.NewestAsync(null, null, 10, None));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(10_001)]
    public async Task Asking_for_none_or_too_many_is_refused(int most)
    {
        using var ledger = place.OpenLedger();
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(async () => await ledger.NewestAsync(null, null, most, None));
    }

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
        Assert.Equal("""{"a":1}""", (await ledger.NewestAsync(null, null, 1, None)).Single().Json);
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
}
