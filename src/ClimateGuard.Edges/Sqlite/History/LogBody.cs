namespace ClimateGuard.Edges.Sqlite;

/// <summary>One batch as one packed row of the log.</summary>
internal static class LogBody
{
    private const int HasRaw = 1;

    public static void Pack(ReadOnlySpan<(long Sensor, HistoryRow Row)> batch, ByteSink sink)
    {
        sink.Clear();
        var begin = BlockFrame.Begin(sink);
        var time = 0L;
        foreach (ref readonly var item in batch)
        {
            ref readonly var row = ref item.Row;
            var hasRaw = BitConverter.DoubleToInt64Bits(row.Raw) != BitConverter.DoubleToInt64Bits(row.Value);
            sink.Number((ulong)item.Sensor);
            sink.Signed(row.Time - time);
            sink.Number(((ulong)row.Reason << 1) | (hasRaw ? HasRaw : 0UL));
            sink.Whole(row.Value);
            if (hasRaw)
            {
                sink.Whole(row.Raw);
            }

            time = row.Time;
        }

        BlockFrame.End(sink, begin);
    }

    /// <exception cref="DamagedBlockException">It does not read back.</exception>
    public static void Unpack(ReadOnlySpan<byte> body, LooseRows rows, long now)
    {
        var source = new ByteSource(BlockFrame.Open(body));
        var time = 0L;
        while (!source.IsAtEnd)
        {
            var sensor = source.Number();
            if (sensor > 1 << 24)
            {
                throw new DamagedBlockException("the number of a sensor is too great");
            }

            time += source.Signed();
            var flags = source.Number();
            var value = source.Whole();
            var raw = (flags & HasRaw) != 0 ? source.Whole() : value;
            rows.Add((long)sensor, new HistoryRow(time, value, raw, (byte)(flags >> 1)), now);
        }
    }
}
