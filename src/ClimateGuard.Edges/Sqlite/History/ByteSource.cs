using System.Buffers.Binary;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Reads what a <see cref="ByteSink"/> wrote; running out of bytes is damage.</summary>
internal ref struct ByteSource(ReadOnlySpan<byte> bytes)
{
    private readonly ReadOnlySpan<byte> bytes = bytes;
    private int at;

    public readonly bool IsAtEnd => at == bytes.Length;

    public ReadOnlySpan<byte> Take(int count)
    {
        if ((uint)count > (uint)(bytes.Length - at))
        {
            throw new DamagedBlockException("it ends too early");
        }

        var taken = bytes.Slice(at, count);
        at += count;
        return taken;
    }

    public byte Byte()
    {
        if (at >= bytes.Length)
        {
            throw new DamagedBlockException("it ends too early");
        }

        return bytes[at++];
    }

    public double Whole() => BinaryPrimitives.ReadDoubleLittleEndian(Take(8));

    public ulong Number()
    {
        // Most numbers are one byte.
        if (at < bytes.Length && bytes[at] < 0x80)
        {
            return bytes[at++];
        }

        var value = 0UL;
        for (var shift = 0; shift < 70; shift += 7)
        {
            var next = Byte();
            value |= (ulong)(next & 0x7f) << shift;
            if (next < 0x80)
            {
                return value;
            }
        }

        throw new DamagedBlockException("a number has no end");
    }

    public long Signed()
    {
        var value = Number();
        return (long)(value >> 1) ^ -(long)(value & 1);
    }
}
