namespace ClimateGuard.Edges.Sqlite;

/// <summary>What the readings of one minute or quarter of an hour were.</summary>
/// <param name="Begin">Begin of the period, in ms since 1970.</param>
/// <param name="Count">How many readings.</param>
/// <param name="Minimum">The least, the earliest of equals.</param>
/// <param name="MinimumAt">Its event time.</param>
/// <param name="Maximum">The greatest, the earliest of equals.</param>
/// <param name="MaximumAt">Its event time.</param>
/// <param name="Last">The last.</param>
/// <param name="LastAt">Its event time.</param>
/// <param name="Sum">Their sum, added in time order.</param>
public readonly record struct SeriesAggregate(
    long Begin, long Count, double Minimum, long MinimumAt, double Maximum, long MaximumAt, double Last, long LastAt, double Sum)
{
    /// <summary>Their mean.</summary>
    public double Mean => Sum / Count;
}

/// <summary>Makes aggregates from rows, and packs them. Not safe across threads.</summary>
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

    /// <summary>Packs aggregates as one block.</summary>
    public static void Pack(ReadOnlySpan<SeriesAggregate> aggregates, AggregateScratch scratch, ByteSink sink)
    {
        var begin = BlockFrame.Begin(sink);
        var count = aggregates.Length;
        sink.Number((ulong)count);
        scratch.MakeRoom(count);
        var whole = scratch.Whole.AsSpan(0, count);
        var doubles = scratch.Doubles.AsSpan(0, count);
        for (var column = 0; column < 5; column++)
        {
            for (var n = 0; n < count; n++)
            {
                ref readonly var aggregate = ref aggregates[n];
                whole[n] = column switch
                {
                    0 => aggregate.Begin,
                    1 => aggregate.Count,
                    2 => aggregate.MinimumAt - aggregate.Begin,
                    3 => aggregate.MaximumAt - aggregate.Begin,
                    _ => aggregate.LastAt - aggregate.Begin,
                };
            }

            WholeColumn.Pack(whole, sink);
        }

        for (var column = 0; column < 4; column++)
        {
            for (var n = 0; n < count; n++)
            {
                ref readonly var aggregate = ref aggregates[n];
                doubles[n] = column switch { 0 => aggregate.Minimum, 1 => aggregate.Maximum, 2 => aggregate.Last, _ => aggregate.Sum };
            }

            DoubleColumn.Pack(doubles, sink);
        }

        BlockFrame.End(sink, begin);
    }

    /// <summary>Appends the aggregates of a block.</summary>
    /// <exception cref="DamagedBlockException">It does not read back.</exception>
    public static void Unpack(ReadOnlySpan<byte> block, AggregateScratch scratch, List<SeriesAggregate> found)
    {
        var source = new ByteSource(BlockFrame.Open(block));
        var claimed = source.Number();
        if (claimed is 0 or > 1 << 20)
        {
            throw new DamagedBlockException($"it claims {claimed} periods");
        }

        var count = (int)claimed;
        scratch.MakeRoom(count);
        var (whole, doubles) = (scratch.Whole, scratch.Doubles);
        for (var column = 0; column < 5; column++)
        {
            WholeColumn.Unpack(ref source, whole.AsSpan(column * scratch.Room, count));
        }

        for (var column = 0; column < 4; column++)
        {
            DoubleColumn.Unpack(ref source, doubles.AsSpan(column * scratch.Room, count));
        }

        if (!source.IsAtEnd)
        {
            throw new DamagedBlockException("it has too many bytes");
        }

        for (var n = 0; n < count; n++)
        {
            var (begin, room) = (whole[n], scratch.Room);
            found.Add(new SeriesAggregate(
                begin, whole[room + n],
                doubles[n], begin + whole[(2 * room) + n],
                doubles[room + n], begin + whole[(3 * room) + n],
                doubles[(2 * room) + n], begin + whole[(4 * room) + n],
                doubles[(3 * room) + n]));
        }
    }
}

/// <summary>Columns between aggregates and bytes, used again.</summary>
internal sealed class AggregateScratch
{
    public int Room { get; private set; }

    public long[] Whole { get; private set; } = [];

    public double[] Doubles { get; private set; } = [];

    public void MakeRoom(int count)
    {
        if (count > Room)
        {
            Room = Math.Max(count, AggregateBlock.Full);
            (Whole, Doubles) = (new long[Room * 5], new double[Room * 4]);
        }
    }
}
