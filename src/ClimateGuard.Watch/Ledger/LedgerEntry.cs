using System.Buffers;
using System.Globalization;

namespace ClimateGuard.Watch;

/// <summary>A line as it stands in the ledger.</summary>
/// <param name="Seq">Its number: from 1, without a gap.</param>
/// <param name="Line">What it says.</param>
/// <param name="Hash">Its hash, see <see cref="LedgerChain.Hash"/>: 64 hexadecimal digits.</param>
public sealed record LedgerEntry(long Seq, LedgerLine Line, string Hash)
{
    /// <summary>What shows that the line does not stand as it was written, such as a time that is none; null when nothing does.</summary>
    public string? Fault { get; init; }

    /// <summary>Number and hash of this line.</summary>
    public LedgerHead Head => new(Seq, Hash);
}

/// <summary>Number and hash of the newest line: who keeps them elsewhere can tell later whether anything up to it was changed or cut off.</summary>
/// <param name="Seq">The number.</param>
/// <param name="Hash">The hash.</param>
public sealed record LedgerHead(long Seq, string Hash)
{
    private static readonly SearchValues<char> Digits = SearchValues.Create("0123456789abcdef");

    /// <summary>Such as <c>1207:9f86d0…</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Seq}:{Hash}");

    /// <summary>Reads what <see cref="ToString"/> writes.</summary>
    /// <param name="text">The text.</param>
    /// <returns>The head, or null when the text is none.</returns>
    public static LedgerHead? Parse(string? text)
    {
        var colon = text?.IndexOf(':', StringComparison.Ordinal) ?? -1;
        return colon > 0
            && long.TryParse(text.AsSpan(0, colon), NumberStyles.None, CultureInfo.InvariantCulture, out var seq) && seq > 0
            && text!.Length - colon - 1 == LedgerChain.HashLength && text.AsSpan(colon + 1).IndexOfAnyExcept(Digits) < 0
                ? new LedgerHead(seq, text[(colon + 1)..])
                : null;
    }
}
