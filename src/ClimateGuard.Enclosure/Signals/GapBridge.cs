using ClimateGuard.Plant;

namespace ClimateGuard.Enclosure;

/// <summary>Bridges the minutes between two readings of a sensor that reports less than once a minute; a gap stays a gap.</summary>
internal static class GapBridge
{
    private const int LeastMinutes = 5;
    private const int MostMinutes = 90;

    public static void Over(double[] row, Sensor sensor)
    {
        var steps = Holds(sensor);
        if (!steps && !HasGap(row)) return;
        var limit = steps ? int.MaxValue : Limit(row, sensor.Period);
        var last = -1;
        for (var minute = 0; minute < row.Length; minute++)
        {
            if (double.IsNaN(row[minute])) continue;
            if (last >= 0 && minute - last > 1 && minute - last <= limit) Fill(row, last, minute, steps);
            last = minute;
        }

        if (steps && last >= 0) row.AsSpan(last + 1).Fill(row[last]);
    }

    /// <summary>Where no other sensor speaks, the last state of a contact is not known either.</summary>
    public static void EndHoldsInSilence(double[]?[] rows, Cell cell)
    {
        var speaking = rows.Where((row, sensor) => row is not null && !Holds(cell.Sensors[sensor])).ToList();
        if (speaking.Count == 0) return;
        var held = rows.Where((row, sensor) => row is not null && Holds(cell.Sensors[sensor])).ToList();
        for (var minute = 0; minute < speaking[0]!.Length; minute++)
        {
            if (speaking.Exists(row => !double.IsNaN(row![minute]))) continue;
            foreach (var row in held) row![minute] = double.NaN;
        }
    }

    private static bool HasGap(double[] row)
    {
        int first = Array.FindIndex(row, v => !double.IsNaN(v)), last = Array.FindLastIndex(row, v => !double.IsNaN(v));
        return first >= 0 && Array.FindIndex(row, first, last - first + 1, double.IsNaN) >= 0;
    }

    internal static bool Holds(Sensor sensor) => sensor.ReportsOnChange || sensor.Quantity is SensorQuantity.Contact;

    private static void Fill(double[] row, int from, int to, bool hold)
    {
        var slope = hold ? 0 : (row[to] - row[from]) / (to - from);
        for (var minute = from + 1; minute < to; minute++) row[minute] = row[from] + (slope * (minute - from));
    }

    // Three missed readings in a row are a gap: of the period stated, or of the period seen where that is longer.
    private static int Limit(double[] row, TimeSpan period)
    {
        var intervals = new List<double>();
        var last = -1;
        for (var minute = 0; minute < row.Length; minute++)
        {
            if (double.IsNaN(row[minute])) continue;
            if (last >= 0) intervals.Add(minute - last);
            last = minute;
        }

        var seen = intervals.Count == 0 ? 1 : Robust.Quantile(intervals, 0.5);
        return (int)Math.Clamp(3 * Math.Max(seen, period.TotalMinutes), LeastMinutes, MostMinutes);
    }
}
