using ClimateGuard.Watch;

namespace ClimateGuard.Tests.Watch.Ledger;

/// <summary>The bytes that are hashed, and the words for each kind of break.</summary>
public sealed class LedgerChainTests
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private static readonly LedgerEntry[] Six =
        [.. LedgerChain.Extend("cell1", null, [.. Enumerable.Range(1, 6).Select(n => new LedgerLine(Begin.AddSeconds(n), "alert", "M1", $"{{\"n\":{n}}}"))])];

    [Fact]
    public void The_hash_is_what_sha256sum_says_of_the_documented_bytes()
    {
        LedgerLine[] lines =
        [
            new(Begin, "alert", "M1", """{"n":0}"""),
            new(new DateTimeOffset(2026, 3, 2, 8, 0, 1, TimeSpan.FromHours(2)).AddTicks(1234567), "lease", null, """{"text":"µ"}"""),
        ];

        // printf '%s\n%s\n%s\n%s\n%s\n%s' 'climateguard ledger 1 of cell cell1' 1 2026-03-02T06:00:00.0000000Z alert M1 '{"n":0}' | sha256sum,
        // then with that hash: 2 2026-03-02T06:00:01.1234567Z lease '' '{"text":"µ"}' (coreutils).
        Assert.Equal(
            ["6424e098737812520432d211c33a03a9bde7218f8dae837552fe936b0f2efd7d", "4b77fa28eee2d673aa28fa08ff5672100cb166b7f757eceada335e2a98f13bc8"],
            LedgerChain.Extend("cell1", null, lines).Select(entry => entry.Hash));
    }

    [Fact]
    public void Every_kind_that_is_written_is_in_the_closed_list() => Assert.Empty(
        typeof(ClimateGuard.Edges.Json.LedgerLines).GetFields().Select(field => (string)field.GetValue(null)!).Except(LedgerKinds.All));

    [Fact]
    public void A_whole_chain_is_whole_and_an_empty_one_too()
    {
        Assert.Equal(new LedgerVerdict(6, Begin.AddSeconds(1), Begin.AddSeconds(6), Six[5].Head, null), LedgerChain.Verify("cell1", Six));
        Assert.Equal(new LedgerVerdict(0, null, null, null, null), LedgerChain.Verify("cell1", []));
    }

    [Fact]
    public void A_changed_line_is_named()
    {
        LedgerEntry[] bent = [.. Six];
        bent[2] = bent[2] with { Line = bent[2].Line with { Json = "{}" } };
        Expect(3, LedgerFault.Changed, bent);
        Assert.Equal(Six[1].Head, LedgerChain.Verify("cell1", bent).Head);
        Assert.Equal(Begin.AddSeconds(3), LedgerChain.Verify("cell1", bent).Break?.Time);
    }

    [Fact]
    public void A_changed_hash_alone_is_a_changed_line_also_next_to_the_end()
    {
        LedgerEntry[] bent = [.. Six];
        bent[4] = bent[4] with { Hash = new string('0', 64) };
        Expect(5, LedgerFault.Changed, bent);
    }

    [Fact]
    public void A_changed_line_with_a_fresh_hash_shows_at_the_line_after_it()
    {
        LedgerEntry[] bent = [.. Six];
        var line = bent[2].Line with { Json = "{}" };
        bent[2] = new LedgerEntry(3, line, LedgerChain.Hash(bent[1].Hash, 3, line));
        Expect(4, LedgerFault.Changed, bent);
    }

    [Fact]
    public void A_missing_line_is_named() => Expect(3, LedgerFault.Missing, [.. Six[..2], .. Six[3..]]);

    [Fact]
    public void The_first_line_is_missed_too() => Expect(1, LedgerFault.Missing, Six[1..]);

    [Fact]
    public void Lines_in_another_order_are_named() => Expect(3, LedgerFault.Reordered, [.. Six[..2], Six[3], Six[2], .. Six[4..]]);

    [Fact]
    public void Lines_that_swapped_their_numbers_are_named_too() =>
        Expect(3, LedgerFault.Reordered, [.. Six[..2], Six[3] with { Seq = 3 }, Six[2] with { Seq = 4 }, .. Six[4..]]);

    [Fact]
    public void A_line_twice_is_named() => Expect(4, LedgerFault.Reordered, [.. Six[..3], .. Six[2..]]);

    [Fact]
    public void An_end_that_fits_upon_nothing_is_forged() =>
        Expect(4, LedgerFault.ForgedTail, [.. Six[..3], .. Six[3..].Select(entry => entry with { Hash = new string('0', 64) })]);

    [Fact]
    public void Renumbering_the_rest_over_a_removed_line_does_not_help() =>
        Expect(3, LedgerFault.ForgedTail, [.. Six[..2], .. Six[3..].Select(entry => entry with { Seq = entry.Seq - 1 })]);

    [Fact]
    public void An_end_cut_off_is_found_only_with_a_head_that_was_noted()
    {
        Assert.Null(LedgerChain.Verify("cell1", Six[..4]).Break);
        Expect(5, LedgerFault.Missing, Six[..4], Six[5].Head);
    }

    [Fact]
    public void An_end_written_anew_is_found_only_with_a_head_that_was_noted()
    {
        LedgerEntry[] forged = [.. Six[..3], .. LedgerChain.Extend("cell1", Six[2].Head, [.. Six[3..].Select(entry => entry.Line with { Machine = "M2" })])];

        Assert.Null(LedgerChain.Verify("cell1", forged).Break);
        Expect(5, LedgerFault.ForgedTail, forged, Six[4].Head);
        Assert.Null(LedgerChain.Verify("cell1", forged, Six[2].Head).Break);
    }

    [Fact]
    public void Two_lines_never_have_the_same_bytes_although_they_are_texts_one_after_the_other()
    {
        LedgerEntry[] bent = [.. Six];
        var line = bent[2].Line;
        bent[2] = bent[2] with { Line = line with { Kind = "alert\nM1", Machine = line.Json, Json = "" } };
        Expect(3, LedgerFault.Changed, bent);
        LedgerEntry[] cell = [.. LedgerChain.Extend("cell1", null, [new LedgerLine(Begin, "alert", null, "{}")])];
        cell[0] = cell[0] with { Line = cell[0].Line with { Machine = "" } };
        Expect(1, LedgerFault.Changed, cell);
    }

    [Fact]
    public void The_break_reads_as_a_sentence()
    {
        Assert.Equal(
            "line 3: it is not there; after line 2 comes line 4",
            LedgerChain.Verify("cell1", [.. Six[..2], .. Six[3..]]).Break?.ToString());
    }

    [Theory]
    [InlineData("0", false)]
    [InlineData("3:abc", false)]
    [InlineData("0:0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef", false)]
    [InlineData("-1:0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef", false)]
    [InlineData("3:0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdeg", false)]
    [InlineData("3:0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef", true)]
    public void A_head_is_read_as_it_is_written(string text, bool good)
    {
        Assert.Equal(good, LedgerHead.Parse(text) is not null);
        Assert.Equal(good ? text : null, LedgerHead.Parse(text)?.ToString());
    }

    private static void Expect(long seq, LedgerFault fault, LedgerEntry[] entries, LedgerHead? known = null)
    {
        var verdict = LedgerChain.Verify("cell1", entries, known);
        Assert.Equal((seq, fault), (verdict.Break?.Seq, verdict.Break?.Fault));
    }
}
