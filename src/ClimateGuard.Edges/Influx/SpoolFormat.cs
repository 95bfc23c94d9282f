using System.Buffers.Binary;
using System.IO.Hashing;

namespace ClimateGuard.Edges.Influx;

/// <summary>What stands at a place of a spool file.</summary>
internal enum SpoolFind
{
    /// <summary>A whole record.</summary>
    Record,

    /// <summary>The end.</summary>
    End,

    /// <summary>The begin of a record whose rest is missing: a write that was cut off.</summary>
    Torn,

    /// <summary>Something else.</summary>
    Damaged,
}

/// <summary>
/// A spool file: eight bytes that name it, then records of mark (4), length (4), CRC-32 of the payload (4, all little-endian) and payload.
/// </summary>
internal static class SpoolFormat
{
    public const int HeaderBytes = 12;

    /// <summary>The longest payload, in bytes; anything longer is no record.</summary>
    public const int MostPayloadBytes = 1 << 20;

    private const uint Mark = 0x3152_4743;

    /// <summary>The first bytes of each file.</summary>
    public static ReadOnlySpan<byte> FileMark => "CGSPOOL1"u8;

    /// <summary>Writes the header of a record.</summary>
    public static void WriteHeader(Span<byte> header, ReadOnlySpan<byte> payload)
    {
        BinaryPrimitives.WriteUInt32LittleEndian(header, Mark);
        BinaryPrimitives.WriteInt32LittleEndian(header[4..], payload.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(header[8..], Crc32.HashToUInt32(payload));
    }

    /// <summary>What stands at a place; the payload when it is a record.</summary>
    /// <param name="bytes">A part of a file from the begin of a record on.</param>
    /// <param name="payload">The payload of a whole record.</param>
    public static SpoolFind Look(ReadOnlySpan<byte> bytes, out ReadOnlySpan<byte> payload)
    {
        payload = default;
        if (bytes.IsEmpty)
        {
            return SpoolFind.End;
        }

        Span<byte> mark = stackalloc byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(mark, Mark);
        var seen = Math.Min(4, bytes.Length);
        if (!bytes[..seen].SequenceEqual(mark[..seen]))
        {
            return SpoolFind.Damaged;
        }

        if (bytes.Length < HeaderBytes)
        {
            return SpoolFind.Torn;
        }

        var length = BinaryPrimitives.ReadInt32LittleEndian(bytes[4..]);
        if (length is < 0 or > MostPayloadBytes)
        {
            return SpoolFind.Damaged;
        }

        if (bytes.Length - HeaderBytes < length)
        {
            return SpoolFind.Torn;
        }

        payload = bytes.Slice(HeaderBytes, length);
        return Crc32.HashToUInt32(payload) == BinaryPrimitives.ReadUInt32LittleEndian(bytes[8..]) ? SpoolFind.Record : SpoolFind.Damaged;
    }

    /// <summary>How many bytes to leave out until the next whole record; all of them when there is none.</summary>
    public static int NextRecord(ReadOnlySpan<byte> bytes)
    {
        for (var at = 1; at < bytes.Length; at++)
        {
            if (Look(bytes[at..], out _) == SpoolFind.Record)
            {
                return at;
            }
        }

        return bytes.Length;
    }
}
