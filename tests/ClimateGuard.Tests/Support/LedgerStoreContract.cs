using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Support;

/// <summary>What every ledger must do, whatever lies beneath. A ledger has its own class that derives from this one.</summary>
public abstract class LedgerStoreContract : IDisposable
{
    protected const string CellId = "cell1";

    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly CancellationToken None = CancellationToken.None;

    [Fact]
    public async Task Lines_come_back_as_they_were_written_newest_first_and_after_a_restart()
    {
        // To the tick, and from another time zone: the same moment comes back. The content comes back byte for byte.
        LedgerLine[] lines =
        [
            new(Begin.AddTicks(1234567), "config", null, """{"a":1}"""),
            new(new DateTimeOffset(2026, 3, 2, 8, 0, 1, TimeSpan.FromHours(2)), "outlook", "m\"1µ", """{ "text":"µm \"20 °C\" \u00b5",  "n":1.50 }"""),
        ];
        await Open().AppendAsync(lines, None);

        var ledger = Reopen();

        Assert.Equal(lines.Reverse(), (await ledger.NewestAsync(null, null, 10, None)).Select(entry => entry.Line));
        Assert.Equal(lines, (await ledger.ReadAsync(0, 10, None)).Select(entry => entry.Line));
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
        var ledger = await SixAsync();

        var found = await ledger.NewestAsync(kind, machine, most, None);

        Assert.Equal(expected.Select(n => Begin.AddSeconds(n)), found.Select(entry => entry.Line.Time));
    }

    [Theory]
    [InlineData(0, 10, new long[] { 1, 2, 3, 4, 5, 6 })]
    [InlineData(0, 2, new long[] { 1, 2 })]
    [InlineData(4, 2, new long[] { 5, 6 })]
    [InlineData(6, 10, new long[0])]
    [InlineData(99, 10, new long[0])]
    public async Task Lines_are_read_in_order_from_any_number_on(long after, int most, long[] expected) =>
        Assert.Equal(expected, (await (await SixAsync()).ReadAsync(after, most, None)).Select(entry => entry.Seq));

    [Theory]
    [InlineData("alert", null, 6, 10, new long[] { 4, 2 })]
    [InlineData(null, null, 3, 10, new long[] { 2, 1 })]
    [InlineData(null, "m1", 5, 1, new long[] { 2 })]
    [InlineData(null, null, 1, 10, new long[0])]
    public async Task Lines_are_read_backwards_from_any_number(string? kind, string? machine, long before, int most, long[] expected) =>
        Assert.Equal(expected, (await (await SixAsync()).ReadBackAsync(kind, machine, before, most, None)).Select(entry => entry.Seq));

    [Fact]
    public async Task The_chain_is_whole_over_batches_and_restarts_and_belongs_to_its_cell()
    {
        await SixAsync();
        var ledger = Reopen();
        await ledger.AppendAsync([new LedgerLine(Begin.AddDays(-1), "notice", null, "{}")], None);

        var verdict = await ledger.VerifyAsync(CellId, null, None);

        Assert.Null(verdict.Break);
        Assert.Equal((7, Begin.AddDays(-1), Begin.AddSeconds(5)), (verdict.Lines, verdict.From, verdict.To));
        Assert.Equal(1, (await ledger.VerifyAsync("cell2", null, None)).Break?.Seq);
    }

    [Theory]
    [InlineData("alert", null, "")]
    [InlineData("alert", null, "[]")]
    [InlineData("alert", null, "{\"a\":}")]
    [InlineData("alert", null, "{}{}")]
    [InlineData("alert", null, "{\n}")]
    [InlineData("alert", "", "{}")]
    [InlineData("alert", "m\n1", "{}")]
    [InlineData("gossip", null, "{}")]
    public async Task A_batch_with_a_line_that_is_not_allowed_is_refused_whole(string kind, string? machine, string json)
    {
        var ledger = Open();
        var fault = await Assert.ThrowsAsync<ArgumentException>(async () => await ledger.AppendAsync(
            [new LedgerLine(Begin, "alert", null, "{}"), new LedgerLine(Begin, kind, machine, json)], None));

        Assert.Contains("Ledger line 2 of 2", fault.Message, StringComparison.Ordinal);
        Assert.Empty(await ledger.NewestAsync(null, null, 10, None));
    }

    [Fact]
    public async Task A_batch_without_lines_writes_nothing()
    {
        var ledger = Open();
        await ledger.AppendAsync([], None);
        Assert.Empty(await ledger.ReadAsync(0, 10, None));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(10_001)]
    public async Task Asking_for_none_or_too_many_is_refused(int most)
    {
        var ledger = Open();
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(async () => await ledger.NewestAsync(null, null, most, None));
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(async () => await ledger.ReadAsync(0, most, None));
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(async () => await ledger.ReadAsync(-1, 1, None));
    }

    [Fact]
    public async Task More_lines_than_one_answer_holds_are_read_page_by_page()
    {
        var ledger = Open();
        await ledger.AppendAsync([.. Enumerable.Range(0, 4_001).Select(n => new LedgerLine(Begin.AddSeconds(n), "notice", null, "{}"))], None);

        Assert.Equal(4_001, (await ledger.VerifyAsync(CellId, null, None)).Lines);
    }

    public void Dispose()
    {
        Close();
        GC.SuppressFinalize(this);
    }

    protected abstract ILedgerStore Open();

    /// <summary>Closes it and opens it again.</summary>
    protected abstract ILedgerStore Reopen();

    protected abstract void Close();

    private async Task<ILedgerStore> SixAsync()
    {
        string?[] machines = ["m0", "m1", null];
        var ledger = Open();
        LedgerLine[] lines =
            [.. Enumerable.Range(0, 6).Select(n => new LedgerLine(Begin.AddSeconds(n), n % 2 == 1 ? "alert" : "outlook", machines[n % 3], $"{{\"n\":{n}}}"))];
        await ledger.AppendAsync(lines[..4], None);
        await ledger.AppendAsync(lines[4..], None);
        return ledger;
    }
}
