using System.Text;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Files;

/// <summary>How files call what became of a reading, and why: <c>accepted</c>, <c>corrected</c>, <c>quarantined</c>; <c>outOfRange</c>, ….</summary>
internal static class TrustWords
{
    private static readonly (byte[] Bytes, string Word)[] Trusts = Named(Enum.GetNames<Trust>());
    private static readonly (byte[] Bytes, string Word)[] Reasons = Named(Enum.GetNames<TrustReason>());

    public static string AllowedTrust { get; } = string.Join(", ", Trusts.Select(trust => trust.Word));

    public static string AllowedReason { get; } = string.Join(", ", Reasons.Skip(1).Select(reason => reason.Word));

    public static string Of(Trust trust) => Trusts[(int)trust].Word;

    /// <summary>The word for a reason, empty for none.</summary>
    public static string Of(TrustReason reason) => reason == TrustReason.None ? "" : Reasons[(int)reason].Word;

    public static Trust? TrustOf(ReadOnlySpan<byte> word) => IndexOf(Trusts, word) is >= 0 and var index ? (Trust)index : null;

    public static TrustReason? ReasonOf(ReadOnlySpan<byte> word) =>
        word.IsEmpty ? TrustReason.None : IndexOf(Reasons, word) is >= 0 and var index ? (TrustReason)index : null;

    private static int IndexOf((byte[] Bytes, string Word)[] words, ReadOnlySpan<byte> word)
    {
        for (var i = 0; i < words.Length; i++)
        {
            if (word.SequenceEqual(words[i].Bytes))
            {
                return i;
            }
        }

        return -1;
    }

    private static (byte[] Bytes, string Word)[] Named(string[] names) =>
        [.. names.Select(name => char.ToLowerInvariant(name[0]) + name[1..]).Select(word => (Encoding.ASCII.GetBytes(word), word))];
}
