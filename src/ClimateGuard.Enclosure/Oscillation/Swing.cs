namespace ClimateGuard.Enclosure;

/// <summary>A regular swing in a signal.</summary>
/// <param name="From">First minute of the stretch in which it shows.</param>
/// <param name="Minutes">Length of the stretch.</param>
/// <param name="PeriodMinutes">Its period.</param>
/// <param name="Correlation">Height of the first maximum of the autocorrelation.</param>
/// <param name="HalfPeriodSpread">Standard deviation of the half periods over their mean; small is regular.</param>
/// <param name="PeakToPeak">Its size: the 95 % to 5 % range of the detrended signal.</param>
/// <param name="Cycles">How many cycles.</param>
/// <param name="Squareness">Mean of |x| over its 95 % point: 0.5 for a triangle, 0.64 for a sine, 1 for a square wave.</param>
public sealed record Swing(
    int From, int Minutes, double PeriodMinutes, double Correlation, double HalfPeriodSpread, double PeakToPeak, double Cycles, double Squareness)
{
    /// <summary>The usual stretch in which a swing is looked for, in minutes.</summary>
    public const int Stretch = 360;

    /// <summary>The short one, for a loop that began to hunt this shift.</summary>
    public const int ShortStretch = 180;

    private const int Steps = 3;
    private const int Trend = 121;
    private const int ShortestPeriod = 4;
    private const int LongestPeriod = 75;

    /// <summary>Whether autocorrelation and zero crossings both say so (E.3, F01; common practice, no source).</summary>
    public bool Regular => Correlation >= 0.5 && HalfPeriodSpread < 0.3 && Cycles >= 5;

    /// <summary>The largest regular swing of at least some size in stretches that overlap by two thirds; null when there is none.</summary>
    /// <param name="row">A row of minutes.</param>
    /// <param name="leastPeakToPeak">The least size, in the unit of the row.</param>
    /// <param name="stretch">The length of a stretch, in minutes.</param>
    public static Swing? Largest(double[] row, double leastPeakToPeak, int stretch = Stretch)
    {
        ArgumentNullException.ThrowIfNull(row);
        Swing? best = null;
        for (var from = 0; from + stretch <= row.Length; from += stretch / Steps)
        {
            if (Of(row, from, stretch) is { Regular: true } swing && swing.PeakToPeak >= leastPeakToPeak && swing.PeakToPeak > (best?.PeakToPeak ?? 0)) best = swing;
        }

        return best;
    }

    /// <summary>The swing in a stretch from a minute on, without saying more six hours; null when a minute is missing or nothing repeats.</summary>
    public static Swing? Of(double[] row, int from, int stretch = Stretch)
    {
        ArgumentNullException.ThrowIfNull(row);
        if (from + stretch > row.Length || Detrended(row, from, stretch) is not { } x) return null;
        var rho = Autocorrelation.Of(x, LongestPeriod + 1);
        var first = 1;
        while (first < rho.Length && rho[first] > 0) first++;
        var peak = -1;
        for (var lag = Math.Max(first, ShortestPeriod); lag < rho.Length - 1; lag++)
        {
            if (rho[lag] >= rho[lag - 1] && rho[lag] > rho[lag + 1] && rho[lag] >= 0.3)
            {
                peak = lag;
                break;
            }
        }

        if (peak < 0) return null;
        var high = Robust.Quantile(x.Select(Math.Abs), 0.95);
        var size = Robust.Quantile(x, 0.95) - Robust.Quantile(x, 0.05);
        return new Swing(
            from, stretch, peak, rho[peak], HalfPeriods(x), size, x.Length / (double)peak, high > 0 ? x.Average(Math.Abs) / high : 0);
    }

    // Running sums, so that the middle of each minute costs two differences and not 121 additions.
    private static double[]? Detrended(double[] row, int from, int stretch)
    {
        var sums = new double[stretch + 1];
        for (var i = 0; i < stretch; i++)
        {
            if (double.IsNaN(row[from + i])) return null;
            sums[i + 1] = sums[i] + row[from + i];
        }

        var x = new double[stretch];
        for (var i = 0; i < stretch; i++)
        {
            var first = Math.Clamp(i - (Trend / 2), 0, stretch - Trend);
            x[i] = row[from + i] - ((sums[first + Trend] - sums[first]) / Trend);
        }

        return x;
    }

    // Crossings count only after the signal has left the middle by a quarter of its spread, so that noise makes none.
    private static double HalfPeriods(double[] x)
    {
        var band = 0.25 * Math.Sqrt(x.Average(value => value * value));
        var lengths = new List<double>();
        int side = 0, since = 0;
        for (var i = 0; i < x.Length; i++)
        {
            var now = x[i] > band ? 1 : x[i] < -band ? -1 : 0;
            if (now == 0 || now == side) continue;
            if (side != 0) lengths.Add(i - since);
            (side, since) = (now, i);
        }

        if (lengths.Count < 9) return double.PositiveInfinity;
        var kept = lengths.Skip(1).ToList();
        var mean = kept.Average();
        return Math.Sqrt(kept.Average(l => (l - mean) * (l - mean))) / mean;
    }
}
