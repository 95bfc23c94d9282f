using Microsoft.Data.Sqlite;

namespace ClimateGuard.Edges.Sqlite;

/// <summary>Looks up single moments among the packed rows, for late readings and second deliveries. Lives for one batch.</summary>
/// <remarks>The block last looked into is kept: a batch comes in the order of sensors and times, so a backlog reads each block once.</remarks>
internal sealed class PackedRows(SegmentShelf shelf) : IDisposable
{
    private readonly RowBuffer rows = new();
    private long sensor = -1;
    private long from;
    private long to;

    /// <summary>The raw value of a packed moment, or null.</summary>
    public double? RawOf(long sensorRow, long time)
    {
        if (sensorRow != sensor || time < from || time >= to)
        {
            Load(sensorRow, time);
        }

        return rows.Find(time) is >= 0 and var place ? rows.Raws[place] : null;
    }

    /// <summary>Forgets what was read; the next batch may find it changed.</summary>
    public void Forget() => sensor = -1;

    public void Dispose() => Forget();

    private void Load(long sensorRow, long time)
    {
        var month = SegmentMonth.Of(time);
        (sensor, from, to) = (sensorRow, month.Begin, month.End);
        rows.Clear();
        if (!shelf.Months.Contains(month))
        {
            return;
        }

        shelf.TryRead(month, (SqliteConnection reader) =>
        {
            rows.Clear();
            using var blocks = new SegmentBlocks(reader);
            var place = blocks.PlaceOf(HistoryLevel.Raw, sensorRow, time);
            to = Math.Min(to, place.NextBegins);
            if (place.Id != 0)
            {
                from = place.Begin;
                blocks.RowsOf(place, sensorRow, rows);
            }
        });
    }
}
