namespace ClimateGuard.Edges.Sqlite;

/// <summary>A column of whole numbers that mostly go on as they went before, such as event times: what differs from that is written, and runs
/// without a difference are counted.</summary>
/// <remarks>Differences wrap around, so any numbers are allowed. A column of sensors that keep their pace costs a few bytes in all.</remarks>
internal static class WholeColumn
{
    public static void Pack(ReadOnlySpan<long> numbers, ByteSink sink)
    {
        var (before, step, run) = (0L, 0L, 0UL);
        foreach (var number in numbers)
        {
            var newStep = unchecked(number - before);
            var change = unchecked(newStep - step);
            (before, step) = (number, newStep);
            if (change == 0)
            {
                run++;
                continue;
            }

            EndRun(ref run, sink);
            sink.Signed(change);
        }

        EndRun(ref run, sink);
    }

    public static void Unpack(ref ByteSource source, Span<long> numbers)
    {
        var (before, step) = (0L, 0L);
        for (var n = 0; n < numbers.Length;)
        {
            var change = source.Signed();
            if (change != 0)
            {
                step = unchecked(step + change);
                before = unchecked(before + step);
                numbers[n++] = before;
                continue;
            }

            var run = source.Number();
            if (run == 0 || run > (ulong)(numbers.Length - n))
            {
                throw new DamagedBlockException("a run is longer than its block");
            }

            for (var end = n + (int)run; n < end; n++)
            {
                before = unchecked(before + step);
                numbers[n] = before;
            }
        }
    }

    private static void EndRun(ref ulong run, ByteSink sink)
    {
        if (run > 0)
        {
            sink.Signed(0);
            sink.Number(run);
            run = 0;
        }
    }
}
