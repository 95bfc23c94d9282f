namespace ClimateGuard.Edges.Replay;

/// <summary>Several sorted runs as one, in order.</summary>
/// <remarks>
/// The runs stand in line by the row each is at. Sensors that take turns, as most do, go from the front of the line to its end, which is looked at
/// first: so most rows cost one comparison, however many runs there are.
/// </remarks>
internal sealed class MergedRuns
{
    private readonly (ReadingRow Row, SortedRun Run)[] line;
    private int first;
    private int end;
    private ReadingRow current;

    /// <summary>Begins before the first row.</summary>
    /// <param name="runs">The runs, each before its first row.</param>
    public MergedRuns(IEnumerable<SortedRun> runs)
    {
        (ReadingRow Row, SortedRun Run)[] begun = [.. runs.Where(run => run.MoveNext()).Select(run => (run.Current, run)).OrderBy(one => one.Current)];
        end = begun.Length;
        line = new (ReadingRow, SortedRun)[2 * end];
        begun.CopyTo(line, 0);
    }

    /// <summary>The row it stands at; valid after <see cref="MoveNext"/> said so.</summary>
    public ReadingRow Current => current;

    /// <summary>Goes to the next row.</summary>
    public bool MoveNext()
    {
        if (first == end)
        {
            return false;
        }

        (current, var run) = line[first++];
        if (run.MoveNext())
        {
            StandInLine(run.Current, run);
        }

        return true;
    }

    private void StandInLine(in ReadingRow row, SortedRun run)
    {
        if (end == line.Length)
        {
            line.AsSpan(first, end - first).CopyTo(line);
            (first, end) = (0, end - first);
        }

        var place = end;
        if (first < end && row.CompareTo(line[end - 1].Row) < 0)
        {
            place = PlaceOf(row);
            line.AsSpan(place, end - place).CopyTo(line.AsSpan(place + 1));
        }

        line[place] = (row, run);
        end++;
    }

    // Behind all that are not after it.
    private int PlaceOf(in ReadingRow row)
    {
        var (low, high) = (first, end - 1);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = row.CompareTo(line[middle].Row) < 0 ? (low, middle) : (middle + 1, high);
        }

        return low;
    }
}
