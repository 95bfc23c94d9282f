namespace ClimateGuard.Watch;

/// <summary>How late one sensor follows the common moves of its zone: the lag at which the correlation with the middle of the zone peaks (F15).</summary>
/// <remarks>
/// Asked once an hour over two hours, and only where the zone moved by half a kelvin and the move has enough shape that a lag can be told
/// from it: a straight ramp looks alike at every lag. Three such hours with six minutes or more make a sensor slow.
/// </remarks>
internal sealed class ResponseLag
{
    /// <summary>So many lags in a row make a sensor slow, or well again.</summary>
    public const int HoursToBelieve = 3;

    private const int LongestMinutes = 30;
    private const int SlowMinutes = 6;
    private const double LeastMoveKelvins = 0.5;
    private const double LeastCorrelation = 0.85;
    private const double LeastGain = 0.03;
    private const int Window = MinuteMeans.Remembered - 4 - LongestMinutes;

    private readonly double[] own = new double[Window];
    private readonly double[] zone = new double[Window + LongestMinutes];
    private int slow;
    private int well;

    /// <summary>Whether it follows late.</summary>
    public bool IsSlow { get; private set; }

    /// <summary>The lag found last, in minutes.</summary>
    public int Minutes { get; private set; }

    /// <summary>Looks at the two hours that end at a minute.</summary>
    /// <param name="sensor">The sensor, by the minute.</param>
    /// <param name="middle">The middle of its zone, by the minute.</param>
    /// <param name="minute">The last minute to look at.</param>
    /// <param name="stillMinutes">How long a value may stand where a minute has none.</param>
    public void Look(MinuteMeans sensor, MinuteMeans middle, int minute, int stillMinutes)
    {
        if (!Fill(sensor, own, minute, stillMinutes) || !Fill(middle, zone, minute, stillMinutes) || Range(zone) < LeastMoveKelvins)
        {
            return;
        }

        var (best, atBest, atNone) = (0, double.NegativeInfinity, 0.0);
        for (var lag = 0; lag <= LongestMinutes; lag++)
        {
            var correlation = Correlation(own, zone.AsSpan(LongestMinutes - lag, Window));
            atNone = lag == 0 ? correlation : atNone;
            (best, atBest) = correlation > atBest ? (lag, correlation) : (best, atBest);
        }

        if (atBest < LeastCorrelation)
        {
            return;
        }

        Minutes = atBest - atNone >= LeastGain ? best : 0;
        slow = Minutes >= SlowMinutes ? slow + 1 : 0;
        well = Minutes < SlowMinutes ? well + 1 : 0;
        IsSlow = IsSlow ? well < HoursToBelieve : slow >= HoursToBelieve;
    }

    private static bool Fill(MinuteMeans series, double[] into, int minute, int still)
    {
        for (var i = 0; i < into.Length; i++)
        {
            into[i] = series.AtOrBefore(minute - into.Length + 1 + i, still);
            if (double.IsNaN(into[i]))
            {
                return false;
            }
        }

        return true;
    }

    private static double Range(double[] values)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var value in values)
        {
            (low, high) = (Math.Min(low, value), Math.Max(high, value));
        }

        return high - low;
    }

    private static double Correlation(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        var (meanX, meanY) = (0.0, 0.0);
        for (var i = 0; i < x.Length; i++)
        {
            meanX += x[i] / x.Length;
            meanY += y[i] / x.Length;
        }

        var (xx, yy, xy) = (0.0, 0.0, 0.0);
        for (var i = 0; i < x.Length; i++)
        {
            xx += (x[i] - meanX) * (x[i] - meanX);
            yy += (y[i] - meanY) * (y[i] - meanY);
            xy += (x[i] - meanX) * (y[i] - meanY);
        }

        return xx > 0 && yy > 0 ? xy / Math.Sqrt(xx * yy) : double.NegativeInfinity;
    }
}
