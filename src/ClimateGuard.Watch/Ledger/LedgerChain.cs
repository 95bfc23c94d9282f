using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ClimateGuard.Watch;

/// <summary>The chain through the ledger: each line carries a hash over itself and the hash of the line before.</summary>
/// <remarks>
/// <para>What it finds: a line that was changed, removed, swapped, added or renumbered anywhere before the newest, without any secret.</para>
/// <para>
/// What it cannot find by itself: lines cut off at the end, and an end that someone wrote anew with fresh hashes. Both are found when a
/// later <see cref="LedgerHead"/> was noted somewhere the forger cannot reach, such as in an export or on paper. There is no key: the
/// chain proves that nothing changed since a head was noted, not who wrote it.
/// </para>
/// </remarks>
public static class LedgerChain
{
    /// <summary>Length of a hash in hexadecimal digits.</summary>
    public const int HashLength = 64;

    private const string TimeFormat = "yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'";

    /// <summary>What stands in for the hash before the first line: fixed for a cell, so that lines of one cell cannot begin the ledger of another.</summary>
    /// <param name="cellId">Id of the cell.</param>
    /// <exception cref="ArgumentException">The id is empty or holds a control character.</exception>
    public static string Begin(string cellId)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(cellId);
        if (cellId.Any(char.IsControl))
        {
            throw new ArgumentException("The id of a cell holds no control characters.", nameof(cellId));
        }

        return $"climateguard ledger 1 of cell {cellId}";
    }

    /// <summary>The hash of a line.</summary>
    /// <remarks>
    /// SHA-256 (FIPS 180-4) over the UTF-8 bytes of six texts with one line feed (U+000A) between them and none at the end: the hash of the
    /// line before, or for the first line the text of <see cref="Begin"/>; the number in decimal; the time as <see cref="TimeText"/> writes
    /// it; the kind; the machine, or nothing; the content as stored. Written as 64 lower-case hexadecimal digits. Only the last text can
    /// hold a line feed, so no two lines have the same bytes. Anyone can check a line with <c>printf '%s\n…' | sha256sum</c>.
    /// </remarks>
    /// <param name="previous">The hash of the line before, or <see cref="Begin"/>.</param>
    /// <param name="seq">The number of the line, from 1.</param>
    /// <param name="line">The line.</param>
    public static string Hash(string previous, long seq, LedgerLine line)
    {
        ArgumentNullException.ThrowIfNull(previous);
        ArgumentNullException.ThrowIfNull(line);
        var text = string.Create(
            CultureInfo.InvariantCulture, $"{previous}\n{seq}\n{TimeText(line.Time)}\n{line.Kind}\n{line.Machine}\n{line.Json}");
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
    }

    /// <summary>Puts lines on the end of the chain.</summary>
    /// <param name="cellId">Id of the cell.</param>
    /// <param name="head">The newest line, or null when there is none.</param>
    /// <param name="lines">The lines, in order.</param>
    public static IEnumerable<LedgerEntry> Extend(string cellId, LedgerHead? head, IReadOnlyList<LedgerLine> lines)
    {
        ArgumentNullException.ThrowIfNull(lines);
        var seq = head?.Seq ?? 0;
        var previous = head?.Hash ?? Begin(cellId);
        foreach (var line in lines)
        {
            seq++;
            previous = Hash(previous, seq, line);
            yield return new LedgerEntry(seq, line, previous);
        }
    }

    /// <summary>Follows the whole chain to its end or to its first broken line.</summary>
    /// <param name="cellId">Id of the cell.</param>
    /// <param name="entries">All lines as they stand, in their order.</param>
    /// <param name="known">A head noted earlier, or null; with it a cut or forged end is found too.</param>
    public static LedgerVerdict Verify(string cellId, IEnumerable<LedgerEntry> entries, LedgerHead? known = null)
    {
        ArgumentNullException.ThrowIfNull(entries);
        var check = new LedgerCheck(cellId, known);
        foreach (var entry in entries)
        {
            check.Take(entry);
        }

        return check.Finish();
    }

    /// <summary>A time as it is hashed and stored: RFC 3339, UTC, seven decimals, such as <c>2026-03-02T06:00:00.1234567Z</c>.</summary>
    /// <param name="time">The time.</param>
    public static string TimeText(DateTimeOffset time) => time.UtcDateTime.ToString(TimeFormat, CultureInfo.InvariantCulture);

    /// <summary>Reads what <see cref="TimeText"/> writes, and nothing else.</summary>
    /// <param name="text">The text.</param>
    /// <param name="time">The time.</param>
    public static bool TryReadTime(string? text, out DateTimeOffset time) => DateTimeOffset.TryParseExact(
        text, TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out time);
}
