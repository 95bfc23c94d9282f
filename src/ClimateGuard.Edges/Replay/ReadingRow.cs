using System.Runtime.InteropServices;

namespace ClimateGuard.Edges.Replay;

/// <summary>One reading as it is sorted: 16 bytes, ordered by event time, then sensor, then live before not live, then value.</summary>
[StructLayout(LayoutKind.Sequential)]
internal readonly record struct ReadingRow : IComparable<ReadingRow>
{
    // 42 bits of milliseconds reach to the year 2109, beyond every time that a file may state.
    private const int SensorBits = 20;
    private const long MostTime = (1L << 42) - 1;

    private readonly long order;

    /// <summary>A reading.</summary>
    /// <param name="time">Event time, in ms since 1970, up to the year 2109.</param>
    /// <param name="sensor">Index of the sensor in the cell, below 2²⁰.</param>
    /// <param name="live">It was live as it came.</param>
    /// <param name="value">The value as decoded.</param>
    /// <exception cref="ArgumentOutOfRangeException">Time or sensor is out of range.</exception>
    public ReadingRow(long time, int sensor, bool live, double value)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan((ulong)time, (ulong)MostTime, nameof(time));
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)sensor, 1u << SensorBits, nameof(sensor));
        order = (time << (SensorBits + 1)) | ((long)sensor << 1) | (live ? 0L : 1L);
        Value = value;
    }

    public double Value { get; }

    public long Time => order >> (SensorBits + 1);

    public int Sensor => (int)(order >> 1) & ((1 << SensorBits) - 1);

    public bool Live => (order & 1) == 0;

    public int CompareTo(ReadingRow other) => order != other.order ? order.CompareTo(other.order) : Value.CompareTo(other.Value);
}
