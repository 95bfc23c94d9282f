using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Reads the log into memory: at the start, and whenever another process wrote. Not safe across threads.</summary>
internal sealed class LooseLog : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly LooseMemory memory;
    private readonly SegmentShelf shelf;
    private readonly SqliteStatement state;

    public LooseLog(SqliteConnection connection, LooseMemory memory, SegmentShelf shelf)
    {
        this.connection = connection;
        this.memory = memory;
        this.shelf = shelf;
        state = new(connection, "SELECT logged, packed FROM tally");
    }

    /// <summary>Brings the memory up to what this connection sees, when that is newer.</summary>
    /// <param name="monotonic">The moment by the monotonic clock, in ms.</param>
    public void Follow(long monotonic)
    {
        lock (memory.Gate)
        {
            state.Next();
            var (logged, packed) = (state.Number(0), state.Number(1));
            state.Reset();
            // A reader may see less than this process has written since: that is never news.
            if (logged > memory.Logged || packed > memory.Packed)
            {
                Read(logged, packed, monotonic);
            }
        }
    }

    /// <summary>Reads everything anew.</summary>
    public void Read(long logged, long packed, long monotonic)
    {
        var coming = memory.Restart(logged, packed);
        try
        {
            using var bodies = new SqliteStatement(connection, "SELECT body FROM log ORDER BY id");
            while (bodies.Next())
            {
                LogBody.Unpack(bodies.Bytes(0), coming, monotonic);
            }

            shelf.Refresh();
            ReadMonths();
        }
        catch
        {
            // Half of it must not pass for all of it: the next one reads again.
            memory.Restart(-1, -1);
            throw;
        }
    }

    public void Dispose() => state.Dispose();

    /// <summary>Up to where each sensor is packed: the newest month that has it says so.</summary>
    private void ReadMonths()
    {
        var open = NameTable.Names(connection, "sensor").Keys.ToHashSet();
        memory.RawFloor = long.MinValue;
        foreach (var month in shelf.Months.Reverse())
        {
            shelf.TryRead(month, reader =>
            {
                using var blocks = new SegmentBlocks(reader);
                foreach (var sensor in open.ToArray())
                {
                    if (blocks.Newest(sensor) is { } time)
                    {
                        memory.NotePacked(sensor, time);
                        open.Remove(sensor);
                    }
                }

                if (blocks.LevelsGone() > 0)
                {
                    memory.RawFloor = Math.Max(memory.RawFloor, month.End);
                }
            });
        }
    }
}
