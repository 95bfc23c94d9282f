using System.Globalization;
using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>Makes a <see cref="SignalFrame"/> from readings in any order: the mean of each minute, short gaps bridged, long ones left open.</summary>
/// <remarks>Holds 16 bytes per sensor and minute and at most <see cref="MostDays"/> days. Not safe across threads.</remarks>
public sealed class FrameBuilder(Cell cell)
{
    /// <summary>The most days of readings that a diagnosis takes.</summary>
    public const int MostDays = 400;

    private const long DayMilliseconds = 86_400_000;
    private readonly SortedDictionary<long, DayCells> days = [];
    private readonly long[] lastTime = NoTimes(cell);
    private long outOfOrder;
    private long repeated;

    /// <summary>Takes one reading.</summary>
    /// <param name="reading">In the canonical unit of its sensor; a sensor index outside the cell is an error.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cell has no such sensor.</exception>
    /// <exception cref="InvalidOperationException">The readings span more days than a diagnosis takes.</exception>
    public void Add(in Reading reading)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(reading.Sensor, nameof(reading));
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(reading.Sensor, cell.Sensors.Count, nameof(reading));
        if (!double.IsFinite(reading.Value)) return;
        ref var last = ref lastTime[reading.Sensor];
        if (reading.EpochMilliseconds == last)
        {
            repeated++;
            return;
        }

        if (reading.EpochMilliseconds < last) outOfOrder++;
        last = reading.EpochMilliseconds;
        var day = Math.DivRem(reading.EpochMilliseconds, DayMilliseconds, out var within);
        if (!days.TryGetValue(day, out var cells))
        {
            if (days.Count == MostDays)
            {
                throw new InvalidOperationException(
                    $"The readings span more than {MostDays} days. Give fewer days at a time; nothing was judged.");
            }

            days[day] = cells = new DayCells(cell.Sensors.Count);
        }

        cells.Add(reading.Sensor, (int)(within / 60_000), reading.Value);
    }

    /// <summary>The frame of all readings taken, from the first to the last day that has any.</summary>
    /// <exception cref="InvalidOperationException">The readings span more days than a diagnosis takes, or there are none.</exception>
    public SignalFrame Build()
    {
        if (days.Count == 0) throw new InvalidOperationException("There are no readings of the sensors of the plant file; nothing was judged.");
        var first = days.Keys.First();
        var span = days.Keys.Last() - first + 1;
        if (span > MostDays * 10L)
        {
            throw new InvalidOperationException(
                $"The readings lie {span} days apart from first to last. Give at most {MostDays * 10} days; nothing was judged.");
        }

        var notes = new List<string>();
        if (outOfOrder > 0) notes.Add(Say($"{outOfOrder} readings were out of order; they were put in order by their time."));
        if (repeated > 0) notes.Add(Say($"{repeated} readings repeated the time of the reading before; the first was kept."));
        var minutes = (int)span * DayCells.Minutes;
        var rows = new double[]?[cell.Sensors.Count];
        for (var sensor = 0; sensor < rows.Length; sensor++)
        {
            if (!days.Values.Any(d => d.Has(sensor))) continue;
            rows[sensor] = Row(sensor, first, minutes);
            if (ImplausibleValues.LeaveOut(cell.Sensors[sensor], rows[sensor]!) is { } said) notes.Add(said);
        }

        return Bridged(cell, DateTimeOffset.FromUnixTimeMilliseconds(first * DayMilliseconds), minutes, rows, notes);
    }

    /// <summary>A frame of rows of means: silences counted, short gaps bridged, long ones left open.</summary>
    internal static SignalFrame Bridged(Cell cell, DateTimeOffset start, int minutes, double[]?[] rows, IReadOnlyList<string> notes)
    {
        var silent = new int[minutes];
        var regular = 0;
        for (var sensor = 0; sensor < rows.Length; sensor++)
        {
            if (rows[sensor] is not { } row) continue;
            if (Silence.Count(row, silent)) regular++;
            GapBridge.Over(row, cell.Sensors[sensor]);
        }

        GapBridge.EndHoldsInSilence(rows, cell);
        return new SignalFrame(start, minutes, rows, notes, silent, regular);
    }

    private double[] Row(int sensor, long firstDay, int minutes)
    {
        var row = new double[minutes];
        Array.Fill(row, double.NaN);
        foreach (var (day, cells) in days) cells.CopyTo(sensor, row.AsSpan((int)(day - firstDay) * DayCells.Minutes, DayCells.Minutes));
        return row;
    }

    private static long[] NoTimes(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var times = new long[cell.Sensors.Count];
        Array.Fill(times, long.MinValue);
        return times;
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>Sums and counts of one day.</summary>
    private sealed class DayCells(int sensors)
    {
        public const int Minutes = 1440;
        private readonly double[]?[] sums = new double[]?[sensors];
        private readonly int[]?[] counts = new int[]?[sensors];

        public bool Has(int sensor) => sums[sensor] is not null;

        public void Add(int sensor, int minute, double value)
        {
            (sums[sensor] ??= new double[Minutes])[minute] += value;
            (counts[sensor] ??= new int[Minutes])[minute]++;
        }

        public void CopyTo(int sensor, Span<double> row)
        {
            if (sums[sensor] is not { } sum || counts[sensor] is not { } count) return;
            for (var minute = 0; minute < Minutes; minute++)
            {
                if (count[minute] > 0) row[minute] = sum[minute] / count[minute];
            }
        }
    }
}
