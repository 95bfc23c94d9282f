using System.Buffers;
using System.IO.Compression;
using System.Security.Cryptography;

namespace ClimateGuard.Edges.Files;

/// <summary>The lines of a text file, plain or gzip (told by its first two bytes), one after the other without an allocation for each.</summary>
/// <remarks>Of any length; a line has at most <see cref="MostBytes"/> bytes. Not safe across threads.</remarks>
internal sealed class TextLines : IDisposable
{
    /// <summary>The longest line, in bytes.</summary>
    public const int MostBytes = 64 * 1024;

    private const int BufferBytes = 4 * MostBytes;
    private static readonly byte[] Gzip = [0x1f, 0x8b];
    private static readonly byte[] ByteOrderMark = [0xef, 0xbb, 0xbf];

    private readonly string path;
    private readonly FileStream file;
    private readonly Stream text;
    private readonly byte[] buffer = ArrayPool<byte>.Shared.Rent(BufferBytes);
    private int from;
    private int to;
    private bool ended;

    private TextLines(string path, FileStream file, bool compressed)
    {
        this.path = path;
        this.file = file;
        text = compressed ? new GZipStream(file, CompressionMode.Decompress) : file;
    }

    /// <summary>Number of the line read last, from 1.</summary>
    public long Number { get; private set; }

    /// <summary>Where the next line begins, in bytes of the (unpacked) text.</summary>
    public long Offset { get; private set; }

    /// <summary>Takes each line with its end as it is read, to know the text again later; null when nobody needs to.</summary>
    public IncrementalHash? Digest { get; init; }

    /// <summary>How much of the file was read, in [0, 1], as it lies on disk.</summary>
    public double Share => file.Length == 0 ? 1 : Math.Min(1, (double)file.Position / file.Length);

    /// <summary>Opens a file.</summary>
    /// <exception cref="UnreadableFileException">It is not there, may not be read, or is UTF-16.</exception>
    public static TextLines Open(string path, IncrementalHash? digest = null)
    {
        try
        {
            var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0, FileOptions.SequentialScan);
            Span<byte> head = stackalloc byte[3];
            head = head[..file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
            file.Position = 0;
            if (head.StartsWith((ReadOnlySpan<byte>)[0xff, 0xfe]) || head.StartsWith((ReadOnlySpan<byte>)[0xfe, 0xff]))
            {
                file.Dispose();
                throw new UnreadableFileException($"{path}:1: the text is UTF-16; save it as UTF-8.");
            }

            var lines = new TextLines(path, file, head.StartsWith(Gzip)) { Digest = digest };
            lines.SkipByteOrderMark();
            return lines;
        }
        catch (Exception broken) when (broken is IOException or UnauthorizedAccessException)
        {
            throw new UnreadableFileException(broken is FileNotFoundException or DirectoryNotFoundException
                ? $"{path}: there is no such file."
                : $"{path}: cannot be read: {broken.Message}", broken);
        }
    }

    /// <summary>Reads the next line, without its line end.</summary>
    /// <param name="line">Valid until the next call.</param>
    /// <returns>False at the end of the file.</returns>
    /// <exception cref="UnreadableFileException">A line is too long, or the file is damaged.</exception>
    public bool Next(out ReadOnlySpan<byte> line)
    {
        var searched = 0;
        while (true)
        {
            var end = buffer.AsSpan(from + searched, to - from - searched).IndexOf((byte)'\n');
            if (end >= 0)
            {
                line = Take(searched + end, 1);
                return true;
            }

            searched = to - from;
            if (searched > MostBytes)
            {
                throw new UnreadableFileException($"{path}:{Number + 1}: the line is longer than {MostBytes} bytes; is this a CSV file?");
            }

            if (!Fill())
            {
                line = Take(searched, 0);
                return searched > 0;
            }
        }
    }

    public void Dispose()
    {
        text.Dispose();
        file.Dispose();
        ArrayPool<byte>.Shared.Return(buffer);
    }

    private ReadOnlySpan<byte> Take(int length, int lineEnd)
    {
        ReadOnlySpan<byte> line = buffer.AsSpan(from, length);
        Digest?.AppendData(buffer.AsSpan(from, length + lineEnd));
        from += length + lineEnd;
        Offset += length + lineEnd;
        Number += length + lineEnd > 0 ? 1 : 0;
        return line.EndsWith("\r"u8) ? line[..^1] : line;
    }

    private void SkipByteOrderMark()
    {
        while (to - from < ByteOrderMark.Length && Fill())
        {
            // Until three bytes are there, or the file ends.
        }

        if (buffer.AsSpan(from, to - from).StartsWith(ByteOrderMark))
        {
            from += ByteOrderMark.Length;
            Offset += ByteOrderMark.Length;
        }
    }

    private bool Fill()
    {
        if (from > 0)
        {
            buffer.AsSpan(from, to - from).CopyTo(buffer);
            (from, to) = (0, to - from);
        }

        try
        {
            var read = ended ? 0 : text.Read(buffer, to, buffer.Length - to);
            ended = read == 0;
            to += read;
            return read > 0;
        }
        catch (Exception broken) when (broken is InvalidDataException or IOException)
        {
            throw new UnreadableFileException($"{path}: the file is damaged after line {Number}: {broken.Message}", broken);
        }
    }
}
