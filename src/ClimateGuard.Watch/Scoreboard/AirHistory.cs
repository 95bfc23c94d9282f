using ClimateGuard.Plant;

namespace ClimateGuard.Watch;

/// <summary>Plays the stored air readings of a span against plain limits.</summary>
public static class AirHistory
{
    // Before the span, so that its first minute knows the air.
    private static readonly TimeSpan Before = TimeSpan.FromMinutes(10);

    /// <summary>Reads the air of all zones once, in order of time.</summary>
    /// <param name="readings">The store; it is only read.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="from">Begin, inclusive.</param>
    /// <param name="to">End, exclusive.</param>
    /// <param name="limitsKelvins">The limits, in K, positive.</param>
    /// <param name="cancellation">Stops reading.</param>
    public static async Task<AirLimitComparison> PlayAsync(
        IReadingStore readings, Cell cell, DateTimeOffset from, DateTimeOffset to, IReadOnlyList<double> limitsKelvins, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(readings);
        var comparison = new AirLimitComparison(cell, from, limitsKelvins);
        var next = new PriorityQueue<(IAsyncEnumerator<StoredReading> Rows, int Sensor), long>();
        List<IAsyncEnumerator<StoredReading>> open = [];
        try
        {
            foreach (var sensor in AirLimitComparison.SensorsOf(cell))
            {
                var rows = readings.RowsAsync(sensor.Id, from - Before, to, cancellation).GetAsyncEnumerator(cancellation);
                open.Add(rows);
                await AdvanceAsync(next, rows, cell.IndexOfSensor(sensor.Id));
            }

            while (next.TryDequeue(out var first, out var time))
            {
                var row = first.Rows.Current;
                comparison.Take(new TrustedReading(new Reading(first.Sensor, time, row.Raw), row.Value, row.Trust, row.Reason));
                await AdvanceAsync(next, first.Rows, first.Sensor);
            }
        }
        finally
        {
            foreach (var rows in open)
            {
                await rows.DisposeAsync();
            }
        }

        comparison.Until(to);
        return comparison;
    }

    private static async ValueTask AdvanceAsync(
        PriorityQueue<(IAsyncEnumerator<StoredReading> Rows, int Sensor), long> next, IAsyncEnumerator<StoredReading> rows, int sensor)
    {
        while (await rows.MoveNextAsync())
        {
            if (rows.Current.Trust != Trust.Quarantined)
            {
                next.Enqueue((rows, sensor), rows.Current.EpochMilliseconds);
                return;
            }
        }
    }
}
