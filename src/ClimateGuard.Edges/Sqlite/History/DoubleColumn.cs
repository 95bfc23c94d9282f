using System.Buffers.Binary;
using System.Numerics;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>A column of doubles, given back bit by bit.</summary>
/// <remarks>
/// Sensors speak in decimals: when each value is a whole number of some decimal unit, the steps between those numbers are written, about a byte
/// each. A step is only taken when dividing gives back the very bits, so that what was computed (a Fahrenheit, a negative zero, a
/// subnormal) goes the other way: the bits that differ from the value before, less the zero bytes in front.
/// </remarks>
internal static class DoubleColumn
{
    private const byte Bits = 0xff;
    private const double MostCounts = 1L << 52;

    private static readonly double[] Units = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12];

    public static void Pack(ReadOnlySpan<double> values, ByteSink sink)
    {
        var decimals = DecimalsOf(values);
        if (decimals < 0)
        {
            sink.Byte(Bits);
            PackBits(values, sink);
            return;
        }

        sink.Byte((byte)decimals);
        var (unit, before) = (Units[decimals], 0L);
        foreach (var value in values)
        {
            var count = (long)Math.Round(value * unit);
            sink.Signed(count - before);
            before = count;
        }
    }

    public static void Unpack(ref ByteSource source, Span<double> values)
    {
        var decimals = source.Byte();
        if (decimals == Bits)
        {
            UnpackBits(ref source, values);
            return;
        }

        if (decimals >= Units.Length)
        {
            throw new DamagedBlockException("its unit is none");
        }

        var (unit, count) = (Units[decimals], 0L);
        for (var n = 0; n < values.Length; n++)
        {
            count += source.Signed();
            values[n] = count / unit;
        }
    }

    /// <summary>The fewest decimals in which every value is a whole number, or -1.</summary>
    private static int DecimalsOf(ReadOnlySpan<double> values)
    {
        var decimals = 0;
        foreach (var value in values)
        {
            while (!IsWholeIn(value, Units[decimals]))
            {
                if (++decimals == Units.Length)
                {
                    return -1;
                }
            }
        }

        // More decimals are needed for one value; another may be whole in fewer only.
        foreach (var value in values)
        {
            if (!IsWholeIn(value, Units[decimals]))
            {
                return -1;
            }
        }

        return decimals;
    }

    private static bool IsWholeIn(double value, double unit)
    {
        var count = Math.Round(value * unit);
        // The long makes a negative zero positive, as reading back does.
        return Math.Abs(count) < MostCounts && BitConverter.DoubleToInt64Bits((long)count / unit) == BitConverter.DoubleToInt64Bits(value);
    }

    private static void PackBits(ReadOnlySpan<double> values, ByteSink sink)
    {
        var before = 0UL;
        Span<byte> bytes = stackalloc byte[8];
        foreach (var value in values)
        {
            var bits = BitConverter.DoubleToUInt64Bits(value);
            var changed = bits ^ before;
            before = bits;
            var used = 8 - (BitOperations.LeadingZeroCount(changed) / 8);
            sink.Byte((byte)used);
            BinaryPrimitives.WriteUInt64LittleEndian(bytes, changed);
            bytes[..used].CopyTo(sink.Take(used));
        }
    }

    private static void UnpackBits(ref ByteSource source, Span<double> values)
    {
        var before = 0UL;
        Span<byte> bytes = stackalloc byte[8];
        for (var n = 0; n < values.Length; n++)
        {
            var used = source.Byte();
            if (used > 8)
            {
                throw new DamagedBlockException("a value has more than eight bytes");
            }

            bytes.Clear();
            source.Take(used).CopyTo(bytes);
            before ^= BinaryPrimitives.ReadUInt64LittleEndian(bytes);
            values[n] = BitConverter.UInt64BitsToDouble(before);
        }
    }
}
