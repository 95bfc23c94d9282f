using System.Buffers;
using System.Text;

namespace ClimateGuard.Edges.Json;

/// <summary>Makes the beginning of foreign bytes fit for a log line, a page or a message.</summary>
public static class Printable
{
    private const int MostCharacters = 200;

    /// <summary>At most 200 characters of the payload, control characters replaced by a dot; never reads further than it shows.</summary>
    public static string Start(in ReadOnlySequence<byte> payload)
    {
        var bytes = payload.Slice(0, Math.Min(payload.Length, MostCharacters));
        return Start(bytes.IsSingleSegment ? bytes.FirstSpan : bytes.ToArray(), MostCharacters);
    }

    /// <summary>At most so many characters of the bytes, control characters replaced by a dot.</summary>
    public static string Start(ReadOnlySpan<byte> bytes, int mostCharacters) =>
        Clean(Encoding.UTF8.GetString(bytes[..Math.Min(bytes.Length, mostCharacters)]), mostCharacters);

    /// <summary>At most so many characters of the text, control characters replaced by a dot.</summary>
    public static string Clean(string text, int mostCharacters)
    {
        ArgumentNullException.ThrowIfNull(text);
        var shown = text.Length > mostCharacters ? text[..mostCharacters] : text;
        return string.Create(shown.Length, shown, static (target, source) =>
        {
            for (var i = 0; i < source.Length; i++)
            {
                target[i] = char.IsControl(source[i]) || char.IsSurrogate(source[i]) ? '·' : source[i];
            }
        });
    }
}
