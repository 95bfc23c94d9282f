using System.Buffers.Binary;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Bytes one after another, in an array that is used again for the next block. Not safe across threads.</summary>
internal sealed class ByteSink
{
    private byte[] bytes = new byte[4_096];

    public int Length { get; private set; }

    public ReadOnlySpan<byte> Written => bytes.AsSpan(0, Length);

    public void Clear() => Length = 0;

    /// <summary>Room for so many bytes at the end; they count as written.</summary>
    public Span<byte> Take(int count)
    {
        if (Length + count > bytes.Length)
        {
            Array.Resize(ref bytes, Math.Max(bytes.Length * 2, Length + count));
        }

        var room = bytes.AsSpan(Length, count);
        Length += count;
        return room;
    }

    /// <summary>Bytes written earlier, to be filled in.</summary>
    public Span<byte> At(int place, int count) => bytes.AsSpan(place, count);

    public void Byte(byte value) => Take(1)[0] = value;

    public void Whole(double value) => BinaryPrimitives.WriteDoubleLittleEndian(Take(8), value);

    /// <summary>Seven bits a byte, the lowest first.</summary>
    public void Number(ulong value)
    {
        var room = Take(10);
        var used = 0;
        while (value >= 0x80)
        {
            room[used++] = (byte)(value | 0x80);
            value >>= 7;
        }

        room[used++] = (byte)value;
        Length -= 10 - used;
    }

    /// <summary>A number near zero of either sign.</summary>
    public void Signed(long value) => Number((ulong)(value << 1) ^ (ulong)(value >> 63));
}
