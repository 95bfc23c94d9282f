using System.Globalization;

namespace ClimateGuard.Watch;

/// <summary>Follows a chain line by line, in constant memory; after the first break it reads on only to tell what kind of break it is.</summary>
/// <param name="cellId">Id of the cell.</param>
/// <param name="known">A head noted earlier, or null.</param>
public sealed class LedgerCheck(string cellId, LedgerHead? known)
{
    private string previous = LedgerChain.Begin(cellId);
    private long next = 1;
    private long lines;
    private DateTimeOffset? from;
    private DateTimeOffset? to;
    private LedgerHead? head;
    private LedgerEntry? broken;
    private LedgerEntry? last;
    private LedgerBreak? noted;
    private bool foundLater;
    private bool nextFits;

    /// <summary>Takes the next line as it stands.</summary>
    /// <param name="entry">The line.</param>
    public void Take(LedgerEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        lines++;
        if (entry.Fault is null)
        {
            from = from is { } earliest && earliest <= entry.Line.Time ? from : entry.Line.Time;
            to = to is { } latest && latest >= entry.Line.Time ? to : entry.Line.Time;
        }

        if (broken is not null)
        {
            TakeAfterBreak(entry);
        }
        else if (IsSound(entry, next))
        {
            previous = entry.Hash;
            next++;
            head = entry.Head;
            if (entry.Seq == known?.Seq && entry.Hash != known.Hash)
            {
                noted ??= new LedgerBreak(
                    entry.Seq, entry.Line.Time, LedgerFault.ForgedTail, "it is not the line that was noted; it or lines before it were written anew with fresh hashes");
            }
        }
        else
        {
            broken = entry;
        }

        last = entry;
    }

    /// <summary>What was found.</summary>
    public LedgerVerdict Finish() => new(lines, from, to, head, Break());

    private bool IsSound(LedgerEntry entry, long seq) => entry.Seq == seq && IsLine(entry, seq);

    /// <summary>Whether an entry is, whatever number stands on it, the line that was written with this number at the place of the break.</summary>
    private bool IsLine(LedgerEntry entry, long seq) => Problem(entry) is null && LedgerChain.Hash(previous, seq, entry.Line) == entry.Hash;

    private void TakeAfterBreak(LedgerEntry entry)
    {
        foundLater |= entry.Seq == next || IsLine(entry, next);
        nextFits |= Follows(entry, last!.Hash)
            || (ReferenceEquals(last, broken) && Follows(entry, LedgerChain.Hash(previous, broken!.Seq, broken.Line)));
    }

    private bool Follows(LedgerEntry entry, string before) =>
        entry.Seq == last!.Seq + 1 && LedgerChain.Hash(before, entry.Seq, entry.Line) == entry.Hash;

    private LedgerBreak? Break()
    {
        if (broken is null)
        {
            return noted ?? (known is not null && known.Seq >= next
                ? new LedgerBreak(next, null, LedgerFault.Missing, string.Create(
                    CultureInfo.InvariantCulture, $"the ledger ends before it, but line {known.Seq} was noted as written"))
                : null);
        }

        return broken.Seq switch
        {
            var seq when seq > next && !foundLater => new LedgerBreak(next, null, LedgerFault.Missing, string.Create(
                CultureInfo.InvariantCulture, $"it is not there; after line {next - 1} comes line {seq}")),
            var seq when seq != next => new LedgerBreak(next, broken.Line.Time, LedgerFault.Reordered, string.Create(
                CultureInfo.InvariantCulture, $"line {seq} stands in its place")),
            _ => AtItsPlace(broken),
        };
    }

    private LedgerBreak AtItsPlace(LedgerEntry entry)
    {
        DateTimeOffset? time = entry.Fault is null ? entry.Line.Time : null;
        if (foundLater)
        {
            return new LedgerBreak(next, time, LedgerFault.Reordered, "another line stands in its place; the true one stands further on");
        }

        return ReferenceEquals(entry, last) || nextFits
            ? new LedgerBreak(next, time, LedgerFault.Changed, Problem(entry) is { } problem
                ? $"it was changed after it was written: {problem}"
                : "it was changed after it was written, or the line before it was and got a fresh hash")
            : new LedgerBreak(next, time, LedgerFault.ForgedTail, "from here on nothing fits upon the lines before: the end was written, or renumbered, by something else");
    }

    /// <summary>What shows by itself that a line is not as a writer leaves it; without this two different lines could have the same bytes.</summary>
    private static string? Problem(LedgerEntry entry) => entry.Fault
        ?? (entry.Line.Machine?.Length == 0 || Breaks(entry.Line.Machine) || Breaks(entry.Line.Kind)
            ? "its kind or machine is not as any worker writes it"
            : null);

    private static bool Breaks(string? text) => text is not null && text.Contains('\n', StringComparison.Ordinal);
}
