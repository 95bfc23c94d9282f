using System.Text.RegularExpressions;

namespace ClimateGuard.Watch;

/// <summary>What is left of a text when its numbers are taken out: two texts of one shape say the same thing with other numbers.</summary>
/// <remarks>A number that belongs to a name, as in <c>air/n1</c>, stays.</remarks>
internal static partial class TextShape
{
    /// <summary>The shape of a whole text, the machine's name taken out.</summary>
    public static string Of(string text, string? machine)
    {
        var named = machine is { Length: > 0 } ? Regex.Replace(text, $@"(?<![\w/-]){Regex.Escape(machine)}(?![\w/-])", "@") : text;
        return Number().Replace(Duration().Replace(Bound().Replace(named, ""), "#t"), "#");
    }

    /// <summary>The shape of the last sentence, which says why.</summary>
    public static string OfReason(string text, string? machine)
    {
        var shape = Of(text, machine).TrimEnd();
        var end = shape.LastIndexOf(". ", StringComparison.Ordinal);
        return end < 0 ? shape : shape[(end + 2)..];
    }

    [GeneratedRegex(@"\b(?:less|more) than (?=\d)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Bound();

    [GeneratedRegex(@"(?<![\p{L}\d/_-])\d+(?:\.\d+)? (?:s|min|h)\b(?: \d+ min\b)?", RegexOptions.CultureInvariant)]
    private static partial Regex Duration();

    [GeneratedRegex(@"(?<![\p{L}\d/_])[-−+]?\d+(?:[.,]\d+)*(?![\p{L}_])", RegexOptions.CultureInvariant)]
    private static partial Regex Number();
}
