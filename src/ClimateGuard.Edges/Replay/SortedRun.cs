using System.Runtime.InteropServices;

namespace ClimateGuard.Edges.Replay;

/// <summary>Readings that are in order among themselves, in memory or on disk, a block at a time.</summary>
internal abstract class SortedRun
{
    private ReadingRow[] block = [];
    private int at = -1;
    private int filled;

    /// <summary>The row it stands at; valid after <see cref="MoveNext"/> said so.</summary>
    public ref readonly ReadingRow Current => ref block[at];

    /// <summary>Goes to the next row.</summary>
    public bool MoveNext()
    {
        if (++at < filled)
        {
            return true;
        }

        at = 0;
        (block, filled) = NextBlock();
        return filled > 0;
    }

    /// <summary>The next block with how many rows of it count; zero at the end.</summary>
    protected abstract (ReadingRow[] Rows, int Count) NextBlock();

    /// <summary>Blocks in memory; each is let go once it was read.</summary>
    public sealed class InMemory : SortedRun
    {
        private readonly Queue<(ReadingRow[] Rows, int Count)> blocks = new();
        private ReadingRow last;

        /// <summary>Whether a block goes on where the run ends.</summary>
        public bool IsContinuedBy(in ReadingRow first) => last.CompareTo(first) <= 0;

        public void Add(ReadingRow[] rows, int count)
        {
            blocks.Enqueue((rows, count));
            last = rows[count - 1];
        }

        protected override (ReadingRow[] Rows, int Count) NextBlock() => blocks.TryDequeue(out var next) ? next : ([], 0);
    }

    /// <summary>A file of rows, read from its beginning.</summary>
    public sealed class OnDisk(FileStream file) : SortedRun
    {
        private readonly ReadingRow[] buffer = new ReadingRow[8192];

        protected override (ReadingRow[] Rows, int Count) NextBlock()
        {
            var bytes = file.ReadAtLeast(MemoryMarshal.AsBytes(buffer.AsSpan()), buffer.Length * Marshal.SizeOf<ReadingRow>(), throwOnEndOfStream: false);
            return (buffer, bytes / Marshal.SizeOf<ReadingRow>());
        }
    }
}
