using Microsoft.Win32.SafeHandles;

namespace ClimateGuard.Edges.Influx;

/// <summary>One file of the spool. Only the process that made it appends to it; whoever drains may read it.</summary>
/// <param name="number">Its place in the order.</param>
/// <param name="path">The file.</param>
internal sealed class SpoolSegment(long number, string path)
{
    public long Number => number;

    public string Path => path;

    /// <summary>What is surely on disk, in bytes.</summary>
    public long Length { get; private set; }

    /// <summary>Something in it could not be read; the file is kept.</summary>
    public bool Damaged { get; set; }

    private SafeFileHandle? Writer { get; init; }

    /// <summary>Makes a new, empty one.</summary>
    public static SpoolSegment Create(long number, string path)
    {
        var segment = new SpoolSegment(number, path)
        {
            Writer = File.OpenHandle(path, FileMode.CreateNew, FileAccess.Write, FileShare.Read | FileShare.Delete),
        };
        RandomAccess.Write(segment.Writer, SpoolFormat.FileMark, 0);
        segment.Length = SpoolFormat.FileMark.Length;
        return segment;
    }

    /// <summary>Takes one that is there, for reading.</summary>
    public static SpoolSegment Found(long number, string path) => new(number, path) { Length = new FileInfo(path).Length };

    /// <summary>Adds a record; on return it is on disk, on an exception the file counts as ended before it.</summary>
    public void Append(ReadOnlySpan<byte> payload)
    {
        Span<byte> header = stackalloc byte[SpoolFormat.HeaderBytes];
        SpoolFormat.WriteHeader(header, payload);
        try
        {
            RandomAccess.Write(Writer!, header, Length);
            RandomAccess.Write(Writer!, payload, Length + header.Length);
            RandomAccess.FlushToDisk(Writer!);
        }
        catch (IOException)
        {
            CutBack();
            throw;
        }

        Length += header.Length + payload.Length;
    }

    /// <summary>A part of the file.</summary>
    public byte[] Read(long from, long most)
    {
        using var reader = File.OpenHandle(Path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var bytes = new byte[Math.Min(most, Length - from)];
        var read = 0;
        while (read < bytes.Length && RandomAccess.Read(reader, bytes.AsSpan(read), from + read) is > 0 and var more)
        {
            read += more;
        }

        return read == bytes.Length ? bytes : bytes[..read];
    }

    /// <summary>Nothing more is appended.</summary>
    public void Close() => Writer?.Dispose();

    private void CutBack()
    {
        try
        {
            RandomAccess.SetLength(Writer!, Length);
        }
        catch (IOException)
        {
            // The disk takes nothing at all: a reader sees a write that was cut off, which this is.
        }
    }
}
