using System.Runtime.InteropServices;
using ClimateGuard.Plant;
using ClimateGuard.Watch;

namespace ClimateGuard.Edges.Replay;

/// <summary>Brings readings of any order and number into the order of event time: in memory up to a size, else in pieces on disk.</summary>
/// <remarks>Rows of one moment come by sensor, then by value: so the order in the file does not matter.</remarks>
/// <param name="mostInMemory">How many readings are sorted at once.</param>
internal sealed class ReadingSorter(int mostInMemory) : IDisposable
{
    private readonly List<FileStream> pieces = [];
    private List<Row> rows = [];

    /// <summary>How many readings there are.</summary>
    public long Count { get; private set; }

    /// <summary>Event time of the first, in ms since 1970.</summary>
    public long First { get; private set; } = long.MaxValue;

    /// <summary>Event time of the last, in ms since 1970.</summary>
    public long Last { get; private set; } = long.MinValue;

    /// <summary>Adds a reading as it was decoded; what was not live when it came stays so.</summary>
    public void Add(in TrustedReading reading)
    {
        var live = reading.Reason is not (TrustReason.Retained or TrustReason.FromTheFuture);
        rows.Add(new Row(reading.Raw.EpochMilliseconds, reading.Raw.Sensor, live ? 1 : 0, reading.Raw.Value));
        First = Math.Min(First, reading.Raw.EpochMilliseconds);
        Last = Math.Max(Last, reading.Raw.EpochMilliseconds);
        Count++;
        if (rows.Count >= mostInMemory)
        {
            Spill();
        }
    }

    /// <summary>All of them in order; may be asked once.</summary>
    public IEnumerable<Row> InOrder()
    {
        CollectionsMarshal.AsSpan(rows).Sort();
        return pieces.Count == 0 ? rows : Merged();
    }

    public void Dispose()
    {
        foreach (var piece in pieces)
        {
            piece.Dispose();
        }
    }

    private static IEnumerable<Row> Read(FileStream piece)
    {
        piece.Position = 0;
        var buffer = new Row[8192];
        int bytes;
        while ((bytes = piece.ReadAtLeast(MemoryMarshal.AsBytes(buffer.AsSpan()), buffer.Length * Marshal.SizeOf<Row>(), throwOnEndOfStream: false)) > 0)
        {
            for (var i = 0; i < bytes / Marshal.SizeOf<Row>(); i++)
            {
                yield return buffer[i];
            }
        }
    }

    private void Spill()
    {
        CollectionsMarshal.AsSpan(rows).Sort();
        var piece = new FileStream(
            Path.Combine(Path.GetTempPath(), $"climateguard-{Guid.NewGuid():N}.sorted"), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16,
            FileOptions.DeleteOnClose);
        pieces.Add(piece);
        piece.Write(MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(rows)));
        rows = new List<Row>(mostInMemory);
    }

    private IEnumerable<Row> Merged()
    {
        var waiting = new PriorityQueue<IEnumerator<Row>, Row>();
        foreach (var piece in pieces.Select(Read).Append(rows))
        {
            var one = piece.GetEnumerator();
            if (one.MoveNext())
            {
                waiting.Enqueue(one, one.Current);
            }
        }

        while (waiting.TryDequeue(out var least, out var row))
        {
            yield return row;
            if (least.MoveNext())
            {
                waiting.Enqueue(least, least.Current);
            }
        }
    }

    /// <summary>One reading.</summary>
    /// <param name="Time">Event time, in ms since 1970.</param>
    /// <param name="Sensor">Index of the sensor in the cell.</param>
    /// <param name="Live">1 when it was live as it came.</param>
    /// <param name="Value">The value as decoded.</param>
    [StructLayout(LayoutKind.Sequential)]
    internal readonly record struct Row(long Time, int Sensor, int Live, double Value) : IComparable<Row>
    {
        public int CompareTo(Row other) =>
            Time != other.Time ? Time.CompareTo(other.Time)
            : Sensor != other.Sensor ? Sensor.CompareTo(other.Sensor)
            : Live != other.Live ? other.Live.CompareTo(Live)
            : Value.CompareTo(other.Value);
    }
}
