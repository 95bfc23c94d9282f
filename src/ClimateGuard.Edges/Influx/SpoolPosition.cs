using System.Buffers.Binary;
using System.IO.Hashing;

namespace ClimateGuard.Edges.Influx;

/// <summary>How far the front file of the spool is drained, noted in a file of its own.</summary>
/// <remarks>Not forced to disk: a note that is lost or torn means that the front file is offered again from its begin.</remarks>
/// <param name="folder">The folder of the spool.</param>
internal sealed class SpoolPosition(string folder)
{
    private const int Bytes = 20;

    private readonly string path = Path.Combine(folder, "position");

    public void Write(long segment, long position)
    {
        Span<byte> note = stackalloc byte[Bytes];
        BinaryPrimitives.WriteInt64LittleEndian(note, segment);
        BinaryPrimitives.WriteInt64LittleEndian(note[8..], position);
        BinaryPrimitives.WriteUInt32LittleEndian(note[16..], Crc32.HashToUInt32(note[..16]));
        File.WriteAllBytes(path, note);
    }

    /// <summary>The position noted for a file, or null when none is.</summary>
    public long? Read(long segment)
    {
        var note = File.Exists(path) ? File.ReadAllBytes(path).AsSpan() : [];
        return note.Length == Bytes
            && Crc32.HashToUInt32(note[..16]) == BinaryPrimitives.ReadUInt32LittleEndian(note[16..])
            && BinaryPrimitives.ReadInt64LittleEndian(note) == segment
                ? BinaryPrimitives.ReadInt64LittleEndian(note[8..])
                : null;
    }
}
