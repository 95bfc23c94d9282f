namespace ClimateGuard.Enclosure;

/// <summary>One air sensor of a zone against the others.</summary>
internal static class Neighbours
{
    private const int LongestLag = 40;

    /// <summary>Hourly difference to the median of the others, in K; empty when the sensor or the others say nothing.</summary>
    public static double[] Hours(ZoneSignals zone, string sensor)
    {
        var own = zone.Air.FirstOrDefault(a => a.Sensor.Id == sensor);
        var others = own is null ? null : RowMath.MedianOf([.. zone.Air.Where(a => a != own)], own.Row.Length);
        return others is null ? [] : [.. RowMath.Blocks(own!.Row, 60).Zip(RowMath.Blocks(others, 60), (a, b) => a - b)];
    }

    /// <summary>The known hours of this window; the other days learn from the same number.</summary>
    public static double[] Hours(ZoneCase known, string sensor)
    {
        var hours = Hours(known.Signals, sensor);
        known.Number($"apart/{sensor}", _ => Robust.Median(hours));
        known.Number($"bump/{sensor}", _ => Bump.Of(hours).Kelvins);
        return [.. hours.Where(h => !double.IsNaN(h))];
    }

    /// <summary>The minute in which the difference began, or null.</summary>
    public static int? Onset(double[] hours, double centre, double least)
    {
        var hour = Array.FindIndex(hours, h => Math.Abs(h - centre) >= least);
        return hour < 0 ? null : 60 * hour;
    }

    /// <summary>The longest time in which the sensor repeated one value, in minutes.</summary>
    public static double LongestRepeat(ZoneSignals zone, string sensor) =>
        zone.Air.FirstOrDefault(a => a.Sensor.Id == sensor) is { } own
            ? RowMath.Longest(own.Row.Length, m => m > 0 && Math.Abs(own.Row[m] - own.Row[m - 1]) < 1e-6).Minutes : double.NaN;

    /// <summary>How many minutes later than its neighbours a sensor moves; NaN when the room hardly moves or nothing matches.</summary>
    public static double Lag(ZoneSignals zone, string sensor)
    {
        var own = zone.Air.FirstOrDefault(a => a.Sensor.Id == sensor);
        var others = own is null ? null : RowMath.MedianOf([.. zone.Air.Where(a => a != own)], own.Row.Length);
        if (others is null || Robust.Range(RowMath.Blocks(others, 10)) < 0.25) return double.NaN;
        double[] x = Moves(others), y = Moves(own!.Row);
        double best = double.NegativeInfinity, at = double.NaN;
        for (var lag = 0; lag <= LongestLag; lag++)
        {
            var rho = RowMath.Correlation(x, y, lag);
            if (rho > best) (best, at) = (rho, lag);
        }

        return best > 0.4 ? at : double.NaN;
    }

    // Moves over a quarter of an hour, so that slow drifts and noise both count for little.
    private static double[] Moves(double[] row)
    {
        var moves = new double[row.Length];
        for (var m = 0; m < row.Length; m++) moves[m] = m < 20 ? double.NaN : RowMath.Mean(row, m - 4, 5) - RowMath.Mean(row, m - 19, 5);
        return moves;
    }
}
