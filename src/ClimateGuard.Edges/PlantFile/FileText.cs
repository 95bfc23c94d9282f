using System.Text;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>Reads the bytes of a file as text, within limits.</summary>
internal static class FileText
{
    public const int MaxBytes = 5 * 1024 * 1024;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The bytes, or null with the one problem that says why not.</summary>
    public static (byte[]? Bytes, LocatedProblem? Problem) Bytes(string path)
    {
        try
        {
            var info = new FileInfo(path);
            if (!info.Exists && !Directory.Exists(path))
            {
                return (null, Whole(path, YamlMessages.Missing(path)));
            }

            if (info.Exists && info.Length > MaxBytes)
            {
                return (null, Whole(path, YamlMessages.TooBig(info.Length, MaxBytes)));
            }

            return (File.ReadAllBytes(path), null);
        }
        catch (Exception broken) when (broken is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return (null, Whole(path, YamlMessages.Unreadable(broken.Message)));
        }
    }

    /// <summary>The text of the bytes, or null with the one problem that says why not.</summary>
    public static (string? Text, LocatedProblem? Problem) Decode(string file, byte[] bytes)
    {
        try
        {
            var text = Strict.GetString(bytes);
            return (text.StartsWith('\uFEFF') ? text[1..] : text, null);
        }
        catch (DecoderFallbackException broken)
        {
            var before = bytes.AsSpan(0, Math.Clamp(broken.Index, 0, bytes.Length));
            return (null, new LocatedProblem(
                file, before.Count((byte)'\n') + 1, before.Length - before.LastIndexOf((byte)'\n'), "", YamlMessages.NotUtf8()));
        }
    }

    /// <summary>The problem of a text that is too long or holds a character the parser would stop at in silence, or null.</summary>
    public static LocatedProblem? Check(string file, string text)
    {
        if (Encoding.UTF8.GetByteCount(text) is > MaxBytes and var count)
        {
            return Whole(file, YamlMessages.TooBig(count, MaxBytes));
        }

        if (string.IsNullOrWhiteSpace(text))
        {
            return Whole(file, YamlMessages.Empty());
        }

        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] is < ' ' and not ('\t' or '\n' or '\r') or '\u007F')
            {
                var before = text.AsSpan(0, i);
                return new LocatedProblem(
                    file, before.Count('\n') + 1, i - before.LastIndexOf('\n'), "", YamlMessages.ControlCharacter(text[i]));
            }
        }

        return null;
    }

    private static LocatedProblem Whole(string file, string message) => new(file, 0, 0, "", message);
}
