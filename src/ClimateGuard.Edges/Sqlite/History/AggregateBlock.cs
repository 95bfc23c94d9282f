namespace ClimateGuard.Edges.Sqlite;

/// <summary>Makes aggregates from rows, and packs them. Not safe across threads.</summary>
/// <remarks>
/// Of a single reading only its time and value are written, and of equal readings when the first of them came too: everything else follows.
/// The begin of a period follows from the time of its last reading, which goes on as steadily as the sensor does.
/// </remarks>
internal static class AggregateBlock
{
    /// <summary>So many periods make a full block: half a day of minutes, a week of quarters.</summary>
    public const int Full = 720;

    /// <summary>The aggregates of rows in time order, appended to a list that ends before them.</summary>
    public static void Aggregate(RowBuffer rows, int from, int to, long period, List<SeriesAggregate> found)
    {
        var times = rows.Times;
        var values = rows.Values;
        while (from < to)
        {
            var begin = PeriodBegin(times[from], period);
            var (least, most, sum, at) = (from, from, 0.0, from);
            for (; at < to && times[at] < begin + period; at++)
            {
                sum += values[at];
                least = values[at] < values[least] ? at : least;
                most = values[at] > values[most] ? at : most;
            }

            found.Add(new SeriesAggregate(
                begin, at - from, values[least], times[least], values[most], times[most], values[at - 1], times[at - 1], sum));
            from = at;
        }
    }

    /// <summary>The begin of the period that holds a moment.</summary>
    public static long PeriodBegin(long time, long period)
    {
        var into = time % period;
        return time - (into < 0 ? into + period : into);
    }

    /// <summary>Packs aggregates of one period as one block.</summary>
    public static void Pack(ReadOnlySpan<SeriesAggregate> aggregates, long period, AggregateScratch scratch, ByteSink sink)
    {
        var begin = BlockFrame.Begin(sink);
        sink.Number((ulong)aggregates.Length);
        sink.Number((ulong)period);
        scratch.MakeRoom(aggregates.Length);
        var (several, unequal) = (0, 0);
        for (var n = 0; n < aggregates.Length; n++)
        {
            ref readonly var aggregate = ref aggregates[n];
            var equal = aggregate.IsOfEqualReadings;
            scratch.LastAt[n] = aggregate.LastAt;
            scratch.Count[n] = (aggregate.Count * 2) + (equal ? 0 : 1);
            scratch.Last[n] = aggregate.Last;
            if (aggregate.Count > 1)
            {
                scratch.MinimumAt[several++] = aggregate.MinimumAt - aggregate.Begin;
            }

            if (!equal)
            {
                scratch.MaximumAt[unequal] = aggregate.MaximumAt - aggregate.Begin;
                scratch.Minimum[unequal] = aggregate.Minimum;
                scratch.Maximum[unequal] = aggregate.Maximum;
                scratch.Sum[unequal++] = aggregate.Sum;
            }
        }

        WholeColumn.Pack(scratch.LastAt.AsSpan(0, aggregates.Length), sink);
        WholeColumn.Pack(scratch.Count.AsSpan(0, aggregates.Length), sink);
        WholeColumn.PackInUnits(scratch.MinimumAt.AsSpan(0, several), sink);
        WholeColumn.PackInUnits(scratch.MaximumAt.AsSpan(0, unequal), sink);
        DoubleColumn.Pack(scratch.Last.AsSpan(0, aggregates.Length), sink);
        foreach (var column in (ReadOnlySpan<double[]>)[scratch.Minimum, scratch.Maximum, scratch.Sum])
        {
            DoubleColumn.Pack(column.AsSpan(0, unequal), sink);
        }

        BlockFrame.End(sink, begin);
    }

    /// <summary>Appends the aggregates of a block.</summary>
    /// <exception cref="DamagedBlockException">It does not read back.</exception>
    public static void Unpack(ReadOnlySpan<byte> block, AggregateScratch scratch, List<SeriesAggregate> found)
    {
        var source = new ByteSource(BlockFrame.Open(block));
        var (claimed, period) = (source.Number(), source.Number());
        if (claimed is 0 or > 1 << 20 || period is 0 or > 1 << 30)
        {
            throw new DamagedBlockException($"it claims {claimed} periods of {period} ms");
        }

        var count = (int)claimed;
        scratch.MakeRoom(count);
        WholeColumn.Unpack(ref source, scratch.LastAt.AsSpan(0, count));
        WholeColumn.Unpack(ref source, scratch.Count.AsSpan(0, count));
        var (several, unequal) = CountKinds(scratch.Count.AsSpan(0, count), (long)period);
        WholeColumn.UnpackInUnits(ref source, scratch.MinimumAt.AsSpan(0, several));
        WholeColumn.UnpackInUnits(ref source, scratch.MaximumAt.AsSpan(0, unequal));
        DoubleColumn.Unpack(ref source, scratch.Last.AsSpan(0, count));
        DoubleColumn.Unpack(ref source, scratch.Minimum.AsSpan(0, unequal));
        DoubleColumn.Unpack(ref source, scratch.Maximum.AsSpan(0, unequal));
        DoubleColumn.Unpack(ref source, scratch.Sum.AsSpan(0, unequal));
        if (!source.IsAtEnd)
        {
            throw new DamagedBlockException("it has too many bytes");
        }

        Assemble(scratch, count, (long)period, found);
    }

    private static (int Several, int Unequal) CountKinds(ReadOnlySpan<long> counts, long period)
    {
        var (several, unequal) = (0, 0);
        foreach (var kind in counts)
        {
            // A period holds no more readings than milliseconds, and a single one is equal to itself.
            if (kind < 2 || kind == 3 || kind / 2 > period)
            {
                throw new DamagedBlockException($"a period of it claims {kind / 2} readings");
            }

            several += kind / 2 > 1 ? 1 : 0;
            unequal += (int)(kind & 1);
        }

        return (several, unequal);
    }

    private static void Assemble(AggregateScratch scratch, int count, long period, List<SeriesAggregate> found)
    {
        var (several, unequal) = (0, 0);
        for (var n = 0; n < count; n++)
        {
            var (readings, lastAt, last) = (scratch.Count[n] / 2, scratch.LastAt[n], scratch.Last[n]);
            var begin = PeriodBegin(lastAt, period);
            var minimumAt = readings > 1 ? begin + scratch.MinimumAt[several++] : lastAt;
            if ((scratch.Count[n] & 1) == 0)
            {
                found.Add(SeriesAggregate.OfEqualReadings(begin, readings, minimumAt, last, lastAt));
                continue;
            }

            found.Add(new SeriesAggregate(
                begin, readings, scratch.Minimum[unequal], minimumAt, scratch.Maximum[unequal], begin + scratch.MaximumAt[unequal],
                last, lastAt, scratch.Sum[unequal]));
            unequal++;
        }
    }
}

/// <summary>Columns between aggregates and bytes, used again.</summary>
internal sealed class AggregateScratch
{
    public long[] LastAt { get; private set; } = [];

    public long[] Count { get; private set; } = [];

    public long[] MinimumAt { get; private set; } = [];

    public long[] MaximumAt { get; private set; } = [];

    public double[] Last { get; private set; } = [];

    public double[] Minimum { get; private set; } = [];

    public double[] Maximum { get; private set; } = [];

    public double[] Sum { get; private set; } = [];

    public void MakeRoom(int count)
    {
        if (count > LastAt.Length)
        {
            var room = Math.Max(count, AggregateBlock.Full);
            (LastAt, Count, MinimumAt, MaximumAt) = (new long[room], new long[room], new long[room], new long[room]);
            (Last, Minimum, Maximum, Sum) = (new double[room], new double[room], new double[room], new double[room]);
        }
    }
}
