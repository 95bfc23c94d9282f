using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>The last minutes of every sensor as means, for the live pass.</summary>
/// <remarks>
/// Holds 12 bytes per minute of each sensor that speaks, about 19 kB a sensor over 26 hours, however long it runs; a reading costs no allocation once its
/// sensor has spoken. A reading older than the window is left out: it came too late for a live judgement. Not safe across threads.
/// </remarks>
/// <param name="cell">The cell.</param>
/// <param name="minutes">How many minutes it reaches back, at least 60.</param>
public sealed class MinuteWindow(Cell cell, int minutes = MinuteWindow.DayMinutes)
{
    /// <summary>Enough for a local day, which has at most 25 hours.</summary>
    public const int DayMinutes = 26 * 60;

    private const long MinuteMilliseconds = 60_000;
    private readonly double[]?[] sums = new double[]?[cell.Sensors.Count];
    private readonly int[]?[] counts = new int[]?[cell.Sensors.Count];
    private long newest = long.MinValue;
    private long oldest = long.MaxValue;

    /// <summary>How many minutes it reaches back.</summary>
    public int Minutes { get; } = minutes;

    /// <summary>The first minute it has anything of, or null; never more than <see cref="Minutes"/> back.</summary>
    public DateTimeOffset? From => newest == long.MinValue ? null : TimeOf(Math.Max(oldest, newest - Minutes + 1));

    /// <summary>Takes a value that is trusted.</summary>
    /// <param name="sensor">Index of its sensor in the cell.</param>
    /// <param name="epochMilliseconds">Event time.</param>
    /// <param name="value">In the canonical unit of the sensor; a value that is not finite is left out.</param>
    public void Add(int sensor, long epochMilliseconds, double value)
    {
        var minute = Math.DivRem(epochMilliseconds, MinuteMilliseconds).Quotient;
        if (!double.IsFinite(value) || !MakeRoom(minute)) return;
        var place = Place(minute);
        (sums[sensor] ??= new double[Minutes])[place] += value;
        (counts[sensor] ??= new int[Minutes])[place]++;
    }

    /// <summary>Takes the mean of a minute from the history; a minute that has live values keeps them.</summary>
    /// <param name="sensor">Index of its sensor in the cell.</param>
    /// <param name="minute">The minute.</param>
    /// <param name="mean">The mean.</param>
    public void Fill(int sensor, DateTimeOffset minute, double mean)
    {
        var at = minute.ToUnixTimeMilliseconds() / MinuteMilliseconds;
        if (counts[sensor] is { } known && at > newest - Minutes && at <= newest && known[Place(at)] > 0) return;
        Add(sensor, minute.ToUnixTimeMilliseconds(), mean);
    }

    /// <summary>The minutes before a moment as a frame; null when nothing is known of them.</summary>
    /// <param name="end">The end, exclusive, on a minute.</param>
    /// <param name="minutes">How many, at most <see cref="Minutes"/>; fewer come back where nothing was known before.</param>
    public SignalFrame? Before(DateTimeOffset end, int minutes) => Before(end, minutes, cell, null);

    /// <summary>The same for some sensors alone.</summary>
    /// <param name="end">The end, exclusive, on a minute.</param>
    /// <param name="minutes">How many.</param>
    /// <param name="part">A cell that has these sensors and no others.</param>
    /// <param name="sensors">Where each of its sensors stands in the whole cell; null when it is the whole cell.</param>
    public SignalFrame? Before(DateTimeOffset end, int minutes, Cell part, IReadOnlyList<int>? sensors)
    {
        ArgumentNullException.ThrowIfNull(part);
        var to = end.ToUnixTimeMilliseconds() / MinuteMilliseconds;
        var from = Math.Max(Math.Max(to - minutes, newest - Minutes + 1), oldest);
        if (newest == long.MinValue || to <= from) return null;
        var rows = new double[]?[part.Sensors.Count];
        for (var sensor = 0; sensor < rows.Length; sensor++) rows[sensor] = Row(sensors?[sensor] ?? sensor, from, (int)(to - from));
        return FrameBuilder.Bridged(part, TimeOf(from), (int)(to - from), rows, []);
    }

    private double[]? Row(int sensor, long from, int minutes)
    {
        if (sums[sensor] is not { } sum || counts[sensor] is not { } count) return null;
        var row = new double[minutes];
        var any = false;
        for (var i = 0; i < minutes; i++)
        {
            var place = Place(from + i);
            var known = from + i <= newest && count[place] > 0;
            row[i] = known ? sum[place] / count[place] : double.NaN;
            any |= known;
        }

        if (double.IsNaN(row[0]) && GapBridge.Holds(cell.Sensors[sensor]) && LastBefore(from, sum, count) is { } held)
        {
            row[0] = held;
            any = true;
        }

        return any ? row : null;
    }

    // A contact that moved before the frame begins stands as it was then.
    private double? LastBefore(long from, double[] sum, int[] count)
    {
        for (var minute = from - 1; minute > newest - Minutes && minute >= oldest; minute--)
        {
            if (count[Place(minute)] > 0) return sum[Place(minute)] / count[Place(minute)];
        }

        return null;
    }

    private bool MakeRoom(long minute)
    {
        if (newest == long.MinValue) newest = minute - 1;
        if (minute <= newest - Minutes) return false;
        for (var next = Math.Max(newest + 1, minute - Minutes + 1); next <= minute; next++)
        {
            foreach (var count in counts) if (count is not null) count[Place(next)] = 0;
            foreach (var sum in sums) if (sum is not null) sum[Place(next)] = 0;
        }

        newest = Math.Max(newest, minute);
        oldest = Math.Min(oldest, minute);
        return true;
    }

    private int Place(long minute) => (int)(((minute % Minutes) + Minutes) % Minutes);

    private static DateTimeOffset TimeOf(long minute) => DateTimeOffset.FromUnixTimeMilliseconds(minute * MinuteMilliseconds);
}
