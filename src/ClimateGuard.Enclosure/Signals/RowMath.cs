namespace ClimateGuard.Enclosure;

/// <summary>Small arithmetic on rows of minutes; NaN is a gap and stays one.</summary>
internal static class RowMath
{
    /// <summary>The median of several sensors in each minute; null when there are none.</summary>
    public static double[]? MedianOf(IReadOnlyList<SensorRow> rows, int minutes)
    {
        if (rows.Count == 0) return null;
        var result = new double[minutes];
        var values = new double[rows.Count];
        for (var minute = 0; minute < minutes; minute++)
        {
            var known = 0;
            foreach (var row in rows)
            {
                if (!double.IsNaN(row.Row[minute])) values[known++] = row.Row[minute];
            }

            Array.Sort(values, 0, known);
            result[minute] = known == 0 ? double.NaN : (values[(known - 1) / 2] + values[known / 2]) / 2;
        }

        return result;
    }

    /// <summary>The mean of the minutes from a place on; NaN when fewer than half are known.</summary>
    public static double Mean(double[] row, int from, int minutes)
    {
        double sum = 0;
        var known = 0;
        var to = Math.Min(row.Length, from + minutes);
        for (var minute = Math.Max(0, from); minute < to; minute++)
        {
            if (double.IsNaN(row[minute])) continue;
            sum += row[minute];
            known++;
        }

        return known * 2 < minutes ? double.NaN : sum / known;
    }

    /// <summary>Means of stretches of so many minutes, one after another.</summary>
    public static double[] Blocks(double[] row, int minutes)
    {
        var blocks = new double[row.Length / minutes];
        for (var block = 0; block < blocks.Length; block++) blocks[block] = Mean(row, block * minutes, minutes);
        return blocks;
    }

    /// <summary>The longest stretch in which something holds; unknown minutes end it.</summary>
    public static (int From, int Minutes) Longest(int minutes, Func<int, bool> holds)
    {
        int best = 0, bestFrom = -1, from = -1;
        for (var minute = 0; minute <= minutes; minute++)
        {
            if (minute < minutes && holds(minute))
            {
                if (from < 0) from = minute;
                continue;
            }

            if (from >= 0 && minute - from > best) (best, bestFrom) = (minute - from, from);
            from = -1;
        }

        return (bestFrom, best);
    }

    /// <summary>Pearson correlation of the minutes known in both; NaN for fewer than 30 or without spread.</summary>
    public static double Correlation(double[] x, double[] y, int lag = 0)
    {
        double n = 0, sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0;
        for (var minute = Math.Max(0, -lag); minute < x.Length && minute + lag < y.Length; minute++)
        {
            double a = x[minute], b = y[minute + lag];
            if (double.IsNaN(a) || double.IsNaN(b)) continue;
            n++;
            sx += a;
            sy += b;
            sxx += a * a;
            syy += b * b;
            sxy += a * b;
        }

        var spread = Math.Sqrt(Math.Max(0, (sxx - (sx * sx / n)) * (syy - (sy * sy / n))));
        return n < 30 || spread < 1e-12 ? double.NaN : (sxy - (sx * sy / n)) / spread;
    }
}
