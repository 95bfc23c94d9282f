using ClimateGuard.Plant;
using ClimateGuard.Evidence;

namespace ClimateGuard.Watch;

/// <summary>The raw readings of temperature probes that sit together in one block, as medians of each minute.</summary>
/// <remarks>A median, so that a spike of the wiring does not enter a calibration.</remarks>
public sealed class BlockReadings
{
    private readonly SortedDictionary<int, List<double>>?[] raw;

    /// <summary>Begins without readings.</summary>
    /// <param name="cell">The cell.</param>
    public BlockReadings(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        Cell = cell;
        raw = new SortedDictionary<int, List<double>>?[cell.Sensors.Count];
    }

    /// <summary>The cell.</summary>
    public Cell Cell { get; }

    /// <summary>Indices of the probes that said something.</summary>
    public IEnumerable<int> Probes => Enumerable.Range(0, raw.Length).Where(probe => raw[probe] is not null);

    /// <summary>Adds a reading; of anything but a temperature it is passed over.</summary>
    /// <param name="reading">The reading, without any correction.</param>
    public void Add(in Reading reading)
    {
        if (Cell.Sensors[reading.Sensor].Quantity != SensorQuantity.Temperature)
        {
            return;
        }

        var minutes = raw[reading.Sensor] ??= [];
        var minute = (int)(reading.EpochMilliseconds / 60_000);
        if (!minutes.TryGetValue(minute, out var values))
        {
            minutes[minute] = values = [];
        }

        values.Add(reading.Value);
    }

    /// <summary>The medians of the minutes of a probe, in °C, in order of time.</summary>
    /// <param name="probe">Index of the sensor in the cell.</param>
    public SortedDictionary<int, double> MinutesOf(int probe) =>
        new((raw[probe] ?? []).ToDictionary(minute => minute.Key, minute => Univariate.Median(minute.Value)));

    /// <summary>The standard deviation of single readings about the median of their minute, in K; 0 with one reading a minute.</summary>
    /// <param name="probe">Index of the sensor in the cell.</param>
    /// <param name="from">First minute since 1970.</param>
    /// <param name="to">Last minute since 1970.</param>
    public double RepeatabilityOf(int probe, int from, int to)
    {
        var (squares, freedom) = (0.0, 0);
        foreach (var (minute, values) in raw[probe] ?? [])
        {
            if (minute >= from && minute <= to)
            {
                var mean = values.Average();
                squares += values.Sum(value => (value - mean) * (value - mean));
                freedom += values.Count - 1;
            }
        }

        return freedom == 0 ? 0 : Math.Sqrt(squares / freedom);
    }
}
