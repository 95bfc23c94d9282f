using ClimateGuard.Watch;
using CsCheck;

namespace ClimateGuard.Tests.Properties;

/// <summary>Whatever is done to a ledger before its newest line is found; the first break is never after the place where it was done, plus one.</summary>
public sealed class LedgerTampering
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private static readonly string?[] Machines = [null, "M1", "M2", "µ"];

    private static readonly Gen<LedgerLine> Line = Gen.Select(
        Gen.Int[0, 1_000_000], Gen.Int[0, LedgerKinds.All.Count - 1], Gen.Int[0, Machines.Length - 1], Gen.Int[0, 3],
        (ticks, kind, machine, n) => new LedgerLine(Begin.AddTicks(ticks), LedgerKinds.All[kind], Machines[machine], $"{{\"n\":{n}}}"));

    private static readonly Gen<LedgerEntry[]> Chain = Line.Array[2, 30].Select(lines => LedgerChain.Extend("cell1", null, lines).ToArray());

    [Fact]
    public void Any_single_edit_is_found_at_its_line_or_the_next()
    {
        Gen.Select(Chain, Gen.Int[0, 29], Gen.Int[0, 6], Line, Gen.Bool).Sample((chain, at, what, other, freshHash) =>
        {
            at %= chain.Length - 1;
            var edited = Edit(chain[at], what, other);
            if (freshHash)
            {
                edited = edited with { Hash = LedgerChain.Hash(at == 0 ? LedgerChain.Begin("cell1") : chain[at - 1].Hash, edited.Seq, edited.Line) };
            }

            if (edited == chain[at])
            {
                return;
            }

            LedgerEntry[] bent = [.. chain];
            bent[at] = edited;
            var broken = LedgerChain.Verify("cell1", bent).Break;
            Assert.NotNull(broken);
            Assert.InRange(broken.Seq, at + 1, at + 2);
        });
    }

    [Fact]
    public void Any_deletion_before_the_end_is_found_at_its_line_renumbered_or_not()
    {
        Gen.Select(Chain, Gen.Int[0, 29], Gen.Int[1, 5], Gen.Bool).Sample((chain, at, count, renumber) =>
        {
            at %= chain.Length - 1;
            count = Math.Min(count, chain.Length - 1 - at);
            LedgerEntry[] bent = [.. chain[..at], .. chain[(at + count)..].Select(entry => renumber ? entry with { Seq = entry.Seq - count } : entry)];
            Assert.Equal(at + 1, LedgerChain.Verify("cell1", bent).Break?.Seq);
        });
    }

    [Fact]
    public void Any_swap_is_found_at_the_first_of_the_two_with_their_numbers_or_without()
    {
        Gen.Select(Chain, Gen.Int[0, 29], Gen.Int[0, 29], Gen.Bool).Sample((chain, one, two, keepPlaces) =>
        {
            (one, two) = (Math.Min(one % chain.Length, two % chain.Length), Math.Max(one % chain.Length, two % chain.Length));
            if (one == two)
            {
                return;
            }

            LedgerEntry[] bent = [.. chain];
            bent[one] = keepPlaces ? chain[two] with { Seq = one + 1 } : chain[two];
            bent[two] = keepPlaces ? chain[one] with { Seq = two + 1 } : chain[one];
            var broken = LedgerChain.Verify("cell1", bent).Break;
            Assert.Equal((one + 1L, LedgerFault.Reordered), (broken?.Seq, broken?.Fault));
        });
    }

    [Fact]
    public void Any_inserted_line_is_found()
    {
        Gen.Select(Chain, Gen.Int[0, 29], Line).Sample((chain, at, line) =>
        {
            at %= chain.Length;
            var before = at == 0 ? LedgerChain.Begin("cell1") : chain[at - 1].Hash;
            var slipped = new LedgerEntry(at + 1, line, LedgerChain.Hash(before, at + 1, line));
            LedgerEntry[] bent = [.. chain[..at], slipped, .. chain[at..].Select(entry => entry with { Seq = entry.Seq + 1 })];
            Assert.NotNull(LedgerChain.Verify("cell1", bent).Break);
        });
    }

    [Fact]
    public void A_cut_end_is_found_when_the_head_is_known_and_cannot_be_without()
    {
        Gen.Select(Chain, Gen.Int[0, 29]).Sample((chain, kept) =>
        {
            kept %= chain.Length;
            Assert.Null(LedgerChain.Verify("cell1", chain[..kept]).Break);
            var broken = LedgerChain.Verify("cell1", chain[..kept], chain[^1].Head).Break;
            Assert.Equal((kept + 1L, LedgerFault.Missing), (broken?.Seq, broken?.Fault));
        });
    }

    private static LedgerEntry Edit(LedgerEntry entry, int what, LedgerLine other) => what switch
    {
        0 => entry with { Line = entry.Line with { Json = other.Json } },
        1 => entry with { Line = entry.Line with { Kind = other.Kind } },
        2 => entry with { Line = entry.Line with { Machine = other.Machine } },
        3 => entry with { Line = entry.Line with { Time = other.Time } },
        4 => entry with { Line = entry.Line with { Machine = "" } },
        5 => entry with { Line = entry.Line with { Kind = entry.Line.Kind + "\n" + entry.Line.Machine, Machine = null } },
        _ => entry with { Line = other },
    };
}
