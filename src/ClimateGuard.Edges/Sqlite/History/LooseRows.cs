namespace ClimateGuard.Edges.Sqlite;

/// <summary>Readings that lie in the log and are not packed yet, by sensor and in time order. Not safe across threads.</summary>
internal sealed class LooseRows
{
    private RowBuffer?[] bySensor = new RowBuffer?[64];

    /// <summary>How many.</summary>
    public int Count { get; private set; }

    /// <summary>Number of the newest batch in it.</summary>
    public long Through { get; set; }

    /// <summary>When the first came in, by the monotonic clock, or null while empty.</summary>
    public long? Since { get; private set; }

    /// <summary>The sensors with their rows.</summary>
    public IEnumerable<(long Sensor, RowBuffer Rows)> All =>
        bySensor.Select((rows, sensor) => ((long)sensor, rows)).Where(pair => pair.rows is { Count: > 0 })!;

    public void Add(long sensor, in HistoryRow row, long now)
    {
        if (sensor >= bySensor.Length)
        {
            Array.Resize(ref bySensor, (int)Math.Max(sensor + 1, bySensor.Length * 2L));
        }

        if ((bySensor[sensor] ??= new RowBuffer()).Add(in row))
        {
            Count++;
            Since ??= now;
        }
    }

    /// <summary>The rows of a sensor, or null.</summary>
    public RowBuffer? Of(long sensor) => sensor < bySensor.Length ? bySensor[sensor] : null;

    /// <summary>Empties it and keeps its room.</summary>
    public void Clear()
    {
        foreach (var rows in bySensor)
        {
            rows?.Clear();
        }

        (Count, Since, Through) = (0, null, 0);
    }
}
