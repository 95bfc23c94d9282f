namespace ClimateGuard.Edges.Replay;

/// <summary>Several sorted runs as one, in order: a heap of the runs by the row each stands at.</summary>
internal sealed class MergedRuns
{
    private readonly SortedRun[] heap;
    private int left;
    private bool begun;

    /// <summary>Begins before the first row.</summary>
    /// <param name="runs">The runs, each before its first row.</param>
    public MergedRuns(IEnumerable<SortedRun> runs)
    {
        heap = [.. runs.Where(run => run.MoveNext())];
        left = heap.Length;
        for (var place = (left / 2) - 1; place >= 0; place--)
        {
            Settle(place);
        }
    }

    /// <summary>The row it stands at; valid after <see cref="MoveNext"/> said so.</summary>
    public ref readonly ReadingRow Current => ref heap[0].Current;

    /// <summary>Goes to the next row.</summary>
    public bool MoveNext()
    {
        if (!begun)
        {
            begun = true;
            return left > 0;
        }

        if (left > 0 && !heap[0].MoveNext())
        {
            heap[0] = heap[--left];
        }

        Settle(0);
        return left > 0;
    }

    private void Settle(int place)
    {
        var run = heap[place];
        while (true)
        {
            var least = (2 * place) + 1;
            if (least >= left)
            {
                break;
            }

            least += least + 1 < left && heap[least + 1].Current.CompareTo(heap[least].Current) < 0 ? 1 : 0;
            if (run.Current.CompareTo(heap[least].Current) <= 0)
            {
                break;
            }

            heap[place] = heap[least];
            place = least;
        }

        heap[place] = run;
    }
}
