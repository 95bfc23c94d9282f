namespace ClimateGuard.Enclosure;

/// <summary>Counts, minute by minute, the sensors that should have spoken and did not.</summary>
internal static class Silence
{
    private const double RegularShare = 0.9;
    private const int LongestMinutes = 120;

    /// <summary>Adds the short silences of a row; false when the sensor does not report every minute anyway.</summary>
    public static bool Count(double[] row, int[] silent)
    {
        int first = Array.FindIndex(row, v => !double.IsNaN(v)), last = Array.FindLastIndex(row, v => !double.IsNaN(v));
        var known = row.Count(v => !double.IsNaN(v));
        if (first < 0 || known < RegularShare * (last - first + 1)) return false;
        var since = first;
        for (var minute = first; minute <= last; minute++)
        {
            if (double.IsNaN(row[minute])) continue;
            if (minute - since is > 1 and <= LongestMinutes)
            {
                for (var gap = since + 1; gap < minute; gap++) silent[gap]++;
            }

            since = minute;
        }

        return true;
    }
}
