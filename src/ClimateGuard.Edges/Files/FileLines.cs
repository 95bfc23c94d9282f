using System.Buffers;
using Microsoft.Win32.SafeHandles;

namespace ClimateGuard.Edges.Files;

/// <summary>The lines of a file with the places at which they begin.</summary>
internal static class FileLines
{
    private const byte LineFeed = (byte)'\n';

    public static IEnumerable<FileLine> Of(SafeFileHandle file)
    {
        var buffer = new byte[64 * 1024];
        var line = new ArrayBufferWriter<byte>();
        var offset = 0L;
        var read = 0L;
        int count;
        while ((count = RandomAccess.Read(file, buffer, read)) > 0)
        {
            read += count;
            for (var from = 0; from < count;)
            {
                var end = Array.IndexOf(buffer, LineFeed, from, count - from);
                line.Write(buffer.AsSpan(from, (end < 0 ? count : end) - from));
                if (end < 0)
                {
                    break;
                }

                yield return new FileLine(offset, line.WrittenSpan.ToArray(), true);
                offset += line.WrittenCount + 1;
                line.Clear();
                from = end + 1;
            }
        }

        if (line.WrittenCount > 0)
        {
            yield return new FileLine(offset, line.WrittenSpan.ToArray(), false);
        }
    }
}

/// <summary>One line of a file.</summary>
/// <param name="Offset">Where it begins.</param>
/// <param name="Bytes">Its bytes without the line feed.</param>
/// <param name="Whole">It has its line feed; without one, the writer was stopped in the middle.</param>
internal readonly record struct FileLine(long Offset, byte[] Bytes, bool Whole);
