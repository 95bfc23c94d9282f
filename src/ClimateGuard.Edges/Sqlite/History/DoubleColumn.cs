using System.Buffers.Binary;
using System.Numerics;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>A column of doubles, given back bit by bit.</summary>
/// <remarks>
/// Sensors speak in decimals: when each value is a whole number of some decimal unit, the steps between those numbers are written, about a byte
/// each. A step is only taken when dividing gives back the very bits. What was computed from decimals, such as a sum or a calibrated value, is a few
/// units in the last place off: then these are written beside the steps. Everything else (a Fahrenheit, a negative zero, a
/// subnormal) goes the third way: the bits that differ from the value before, less the zero bytes in front.
/// </remarks>
internal static class DoubleColumn
{
    private const byte Bits = 0xff;
    private const byte Near = 0x40;
    private const int NearUnits = 7;
    private const long MostUlps = 1_000;
    private const double MostCounts = 1L << 52;

    private static readonly double[] Units = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12];

    public static void Pack(ReadOnlySpan<double> values, ByteSink sink)
    {
        if (DecimalsOf(values, Units.Length, 0) is >= 0 and var exact)
        {
            sink.Byte((byte)exact);
            PackSteps(values, Units[exact], isNear: false, sink);
        }
        else if (DecimalsOf(values, NearUnits, MostUlps) is >= 0 and var near)
        {
            sink.Byte((byte)(Near | near));
            PackSteps(values, Units[near], isNear: true, sink);
        }
        else
        {
            sink.Byte(Bits);
            PackBits(values, sink);
        }
    }

    public static void Unpack(ref ByteSource source, Span<double> values)
    {
        var kind = source.Byte();
        if (kind == Bits)
        {
            UnpackBits(ref source, values);
            return;
        }

        var (isNear, decimals) = ((kind & Near) != 0, kind & ~Near);
        if (decimals >= Units.Length)
        {
            throw new DamagedBlockException("its unit is none");
        }

        var (unit, count) = (Units[decimals], 0L);
        for (var n = 0; n < values.Length; n++)
        {
            count = unchecked(count + source.Signed());
            values[n] = count / unit;
            if (isNear)
            {
                values[n] = BitConverter.Int64BitsToDouble(unchecked(BitConverter.DoubleToInt64Bits(values[n]) + source.Signed()));
            }
        }
    }

    private static void PackSteps(ReadOnlySpan<double> values, double unit, bool isNear, ByteSink sink)
    {
        var before = 0L;
        foreach (var value in values)
        {
            var count = (long)Math.Round(value * unit);
            sink.Signed(count - before);
            before = count;
            if (isNear)
            {
                sink.Signed(UlpsOff(value, count, unit));
            }
        }
    }

    /// <summary>The fewest decimals in which every value is a whole number, but for so many units in the last place, or -1.</summary>
    private static int DecimalsOf(ReadOnlySpan<double> values, int units, long ulps)
    {
        var decimals = 0;
        foreach (var value in values)
        {
            while (!IsWholeIn(value, Units[decimals], ulps))
            {
                if (++decimals == units)
                {
                    return -1;
                }
            }
        }

        // More decimals are needed for one value; another may be whole in fewer only.
        foreach (var value in values)
        {
            if (!IsWholeIn(value, Units[decimals], ulps))
            {
                return -1;
            }
        }

        return decimals;
    }

    private static bool IsWholeIn(double value, double unit, long ulps)
    {
        var count = Math.Round(value * unit);
        return Math.Abs(count) < MostCounts && UlpsOff(value, (long)count, unit) is var off && off >= -ulps && off <= ulps;
    }

    // The long makes a negative zero positive, as reading back does.
    private static long UlpsOff(double value, long count, double unit) =>
        unchecked(BitConverter.DoubleToInt64Bits(value) - BitConverter.DoubleToInt64Bits(count / unit));

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
