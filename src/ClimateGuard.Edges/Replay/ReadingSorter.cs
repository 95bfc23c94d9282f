using System.Runtime.InteropServices;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Replay;

/// <summary>Brings readings of any order and number into the order of event time: in memory up to a size, else in pieces on disk.</summary>
/// <remarks>
/// Rows of one moment come by sensor, then by value: so the order in the file does not matter. What the file has in order stays as it is: blocks
/// of rows are sorted where they are not sorted yet, and a block that goes on where the one before ended goes into the same run.
/// </remarks>
/// <param name="mostInMemory">How many readings are sorted at once.</param>
internal sealed class ReadingSorter(int mostInMemory) : IDisposable
{
    private const int RowsInBlock = 65_536;

    private readonly List<FileStream> pieces = [];
    private List<SortedRun.InMemory> runs = [];
    private ReadingRow[] block = [];
    private int filled;
    private int inMemory;

    /// <summary>How many readings there are.</summary>
    public long Count { get; private set; }

    /// <summary>Event time of the first, in ms since 1970.</summary>
    public long First { get; private set; } = long.MaxValue;

    /// <summary>Event time of the last, in ms since 1970.</summary>
    public long Last { get; private set; } = long.MinValue;

    /// <summary>Adds a reading as it was decoded; what was not live when it came stays so.</summary>
    public void Add(in TrustedReading reading)
    {
        var time = reading.Raw.EpochMilliseconds;
        if (filled == block.Length)
        {
            CloseBlock();
            block = new ReadingRow[Math.Min(RowsInBlock, mostInMemory)];
        }

        block[filled++] = new ReadingRow(time, reading.Raw.Sensor, reading.Reason is not (TrustReason.Retained or TrustReason.FromTheFuture), reading.Raw.Value);
        First = Math.Min(First, time);
        Last = Math.Max(Last, time);
        Count++;
        if (++inMemory >= mostInMemory)
        {
            Spill();
        }
    }

    /// <summary>All of them in order; may be asked once.</summary>
    public MergedRuns InOrder()
    {
        CloseBlock();
        foreach (var piece in pieces)
        {
            piece.Position = 0;
        }

        return new MergedRuns([.. pieces.Select(piece => new SortedRun.OnDisk(piece)), .. runs]);
    }

    public void Dispose()
    {
        foreach (var piece in pieces)
        {
            piece.Dispose();
        }
    }

    private void CloseBlock()
    {
        if (filled == 0)
        {
            return;
        }

        var rows = block.AsSpan(0, filled);
        if (!IsSorted(rows))
        {
            rows.Sort();
        }

        if (runs.Count == 0 || !runs[^1].IsContinuedBy(rows[0]))
        {
            runs.Add(new SortedRun.InMemory());
        }

        runs[^1].Add(block, filled);
        (block, filled) = ([], 0);
    }

    private static bool IsSorted(ReadOnlySpan<ReadingRow> rows)
    {
        for (var i = 1; i < rows.Length; i++)
        {
            if (rows[i - 1].CompareTo(rows[i]) > 0)
            {
                return false;
            }
        }

        return true;
    }

    private void Spill()
    {
        CloseBlock();
        var piece = new FileStream(
            Path.Combine(Path.GetTempPath(), $"climateguard-{Guid.NewGuid():N}.sorted"), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16,
            FileOptions.DeleteOnClose);
        pieces.Add(piece);
        var merged = new MergedRuns(runs);
        while (merged.MoveNext())
        {
            var row = merged.Current;
            piece.Write(MemoryMarshal.AsBytes(new ReadOnlySpan<ReadingRow>(in row)));
        }

        (runs, inMemory) = ([], 0);
    }
}
