using System.Buffers.Binary;
using System.Numerics;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Rows of one sensor packed into some bytes: check sum, count, times, raw values, values, reasons.</summary>
/// <remarks>Values are only written where they are neither the raw ones nor the raw ones less one offset, as a calibration makes them.</remarks>
internal static class RawBlock
{
    /// <summary>So many rows make a full block.</summary>
    public const int Full = 1_024;

    private const byte Same = 0;
    private const byte LessOffset = 1;
    private const byte Apart = 2;

    /// <summary>Appends rows [from, to) as one block.</summary>
    public static void Pack(RowBuffer rows, int from, int to, ByteSink sink)
    {
        var begin = BlockFrame.Begin(sink);
        sink.Number((ulong)(to - from));
        WholeColumn.Pack(rows.Times[from..to], sink);
        var raws = rows.Raws[from..to];
        DoubleColumn.Pack(raws, sink);
        PackValues(raws, rows.Values[from..to], sink);
        PackReasons(rows.Reasons[from..to], sink);
        BlockFrame.End(sink, begin);
    }

    /// <summary>Appends the rows of a block, all later than those there.</summary>
    /// <exception cref="DamagedBlockException">It does not read back.</exception>
    public static void Unpack(ReadOnlySpan<byte> block, RowBuffer rows)
    {
        var source = new ByteSource(BlockFrame.Open(block));
        var count = source.Number();
        if (count is 0 or > 1 << 20)
        {
            throw new DamagedBlockException($"it claims {count} rows");
        }

        var (times, values, raws, reasons) = rows.Extend((int)count);
        WholeColumn.Unpack(ref source, times.Span);
        DoubleColumn.Unpack(ref source, raws.Span);
        UnpackValues(ref source, raws.Span, values.Span);
        UnpackReasons(ref source, reasons.Span);
        if (!source.IsAtEnd)
        {
            throw new DamagedBlockException("it has too many bytes");
        }
    }

    private static void PackValues(ReadOnlySpan<double> raws, ReadOnlySpan<double> values, ByteSink sink)
    {
        // To twelve decimals: what a person wrote as the offset, without the rounding of the difference.
        var offset = Math.Round(raws[0] - values[0], 12);
        var kind = Same;
        for (var n = 0; n < raws.Length && kind != Apart; n++)
        {
            var value = BitConverter.DoubleToInt64Bits(values[n]);
            if (kind == Same && BitConverter.DoubleToInt64Bits(raws[n]) != value)
            {
                (kind, n) = (LessOffset, 0);
                value = BitConverter.DoubleToInt64Bits(values[0]);
            }

            if (kind == LessOffset && BitConverter.DoubleToInt64Bits(raws[n] - offset) != value)
            {
                kind = Apart;
            }
        }

        sink.Byte(kind);
        if (kind == LessOffset)
        {
            sink.Whole(offset);
        }
        else if (kind == Apart)
        {
            DoubleColumn.Pack(values, sink);
        }
    }

    private static void UnpackValues(ref ByteSource source, ReadOnlySpan<double> raws, Span<double> values)
    {
        switch (source.Byte())
        {
            case Same:
                raws.CopyTo(values);
                break;
            case LessOffset:
                var offset = source.Whole();
                for (var n = 0; n < raws.Length; n++)
                {
                    values[n] = raws[n] - offset;
                }

                break;
            case Apart:
                DoubleColumn.Unpack(ref source, values);
                break;
            default:
                throw new DamagedBlockException("the kind of its values is none");
        }
    }

    private static void PackReasons(ReadOnlySpan<byte> reasons, ByteSink sink)
    {
        while (reasons.Length > 0)
        {
            var run = reasons.IndexOfAnyExcept(reasons[0]);
            run = run < 0 ? reasons.Length : run;
            sink.Byte(reasons[0]);
            sink.Number((ulong)run);
            reasons = reasons[run..];
        }
    }

    private static void UnpackReasons(ref ByteSource source, Span<byte> reasons)
    {
        while (reasons.Length > 0)
        {
            var reason = source.Byte();
            var run = source.Number();
            if (run == 0 || run > (ulong)reasons.Length)
            {
                throw new DamagedBlockException("a run is longer than its block");
            }

            reasons[..(int)run].Fill(reason);
            reasons = reasons[(int)run..];
        }
    }
}

/// <summary>The four bytes in front of each block by which damage is noticed: a CRC-32C of what follows.</summary>
internal static class BlockFrame
{
    private const int Bytes = 4;

    /// <summary>Begins a block; returns what <see cref="End"/> needs.</summary>
    public static int Begin(ByteSink sink)
    {
        sink.Take(Bytes);
        return sink.Length;
    }

    public static void End(ByteSink sink, int begin) =>
        BinaryPrimitives.WriteUInt32LittleEndian(sink.At(begin - Bytes, Bytes), Sum(sink.Written[begin..]));

    /// <summary>What stands in a block.</summary>
    /// <exception cref="DamagedBlockException">The check sum is wrong.</exception>
    public static ReadOnlySpan<byte> Open(ReadOnlySpan<byte> block) =>
        block.Length > Bytes && BinaryPrimitives.ReadUInt32LittleEndian(block) == Sum(block[Bytes..])
            ? block[Bytes..]
            : throw new DamagedBlockException("its check sum is wrong");

    private static uint Sum(ReadOnlySpan<byte> bytes)
    {
        var sum = ~0u;
        while (bytes.Length >= 8)
        {
            sum = BitOperations.Crc32C(sum, BinaryPrimitives.ReadUInt64LittleEndian(bytes));
            bytes = bytes[8..];
        }

        foreach (var next in bytes)
        {
            sum = BitOperations.Crc32C(sum, next);
        }

        return ~sum;
    }
}
