namespace ClimateGuard.Edges.Sqlite;

/// <summary>Rows of one sensor in time order, one at a moment, as columns. Grows and is used again; not safe across threads.</summary>
internal sealed class RowBuffer
{
    private long[] times = new long[64];
    private double[] values = new double[64];
    private double[] raws = new double[64];
    private byte[] reasons = new byte[64];

    public int Count { get; private set; }

    /// <summary>Event times, in ms since 1970, rising.</summary>
    public ReadOnlySpan<long> Times => times.AsSpan(0, Count);

    /// <summary>Values in use.</summary>
    public ReadOnlySpan<double> Values => values.AsSpan(0, Count);

    /// <summary>Values as decoded.</summary>
    public ReadOnlySpan<double> Raws => raws.AsSpan(0, Count);

    /// <summary>The number of the reason of a correction in the table of reasons; 0 for none.</summary>
    public ReadOnlySpan<byte> Reasons => reasons.AsSpan(0, Count);

    public HistoryRow this[int index] => new(times[index], values[index], raws[index], reasons[index]);

    public void Clear() => Count = 0;

    /// <summary>Room for so many rows, to be filled by unpacking.</summary>
    public (Memory<long> Times, Memory<double> Values, Memory<double> Raws, Memory<byte> Reasons) Extend(int count)
    {
        MakeRoom(Count + count);
        var from = Count;
        Count += count;
        return (times.AsMemory(from, count), values.AsMemory(from, count), raws.AsMemory(from, count), reasons.AsMemory(from, count));
    }

    /// <summary>Puts a row in its place; a moment that is taken stays as it is.</summary>
    /// <returns>Whether it was new.</returns>
    public bool Add(in HistoryRow row)
    {
        var place = Count;
        if (Count > 0 && row.Time <= times[Count - 1])
        {
            place = Times.BinarySearch(row.Time);
            if (place >= 0)
            {
                return false;
            }

            place = ~place;
        }

        MakeRoom(Count + 1);
        if (place < Count)
        {
            Move(place, place + 1, Count - place);
        }

        (times[place], values[place], raws[place], reasons[place]) = (row.Time, row.Value, row.Raw, row.Reason);
        Count++;
        return true;
    }

    /// <summary>Where a moment stands, or the complement of where it would.</summary>
    public int Find(long time) => Count > 0 && time > times[Count - 1] ? ~Count : Times.BinarySearch(time);

    /// <summary>The first place at or after a moment.</summary>
    public int FirstAt(long time)
    {
        var place = Find(time);
        return place < 0 ? ~place : place;
    }

    /// <summary>Appends rows [from, to) of another, all later than the last here.</summary>
    public void Append(RowBuffer other, int from, int to)
    {
        MakeRoom(Count + to - from);
        other.times.AsSpan(from, to - from).CopyTo(times.AsSpan(Count));
        other.values.AsSpan(from, to - from).CopyTo(values.AsSpan(Count));
        other.raws.AsSpan(from, to - from).CopyTo(raws.AsSpan(Count));
        other.reasons.AsSpan(from, to - from).CopyTo(reasons.AsSpan(Count));
        Count += to - from;
    }

    /// <summary>Appends two in time order; of a moment that both have, the row of the first.</summary>
    public void Merge(RowBuffer first, RowBuffer second, int from, int to)
    {
        var at = 0;
        while (from < to)
        {
            var next = first.FirstAt(second.times[from]);
            Append(first, at, Math.Max(at, next));
            at = Math.Max(at, next);
            if (at < first.Count && first.times[at] == second.times[from])
            {
                from++;
                continue;
            }

            var end = at < first.Count ? Math.Min(to, second.FirstAt(first.times[at])) : to;
            Append(second, from, end);
            from = end;
        }

        Append(first, at, first.Count);
    }

    private void Move(int from, int to, int count)
    {
        Array.Copy(times, from, times, to, count);
        Array.Copy(values, from, values, to, count);
        Array.Copy(raws, from, raws, to, count);
        Array.Copy(reasons, from, reasons, to, count);
    }

    private void MakeRoom(int count)
    {
        if (count > times.Length)
        {
            var size = Math.Max(count, times.Length * 2);
            Array.Resize(ref times, size);
            Array.Resize(ref values, size);
            Array.Resize(ref raws, size);
            Array.Resize(ref reasons, size);
        }
    }
}

/// <summary>One reading as it is kept.</summary>
/// <param name="Time">Event time, in ms since 1970.</param>
/// <param name="Value">The value in use.</param>
/// <param name="Raw">The value as decoded.</param>
/// <param name="Reason">The number of the reason of a correction; 0 for none.</param>
internal readonly record struct HistoryRow(long Time, double Value, double Raw, byte Reason);
