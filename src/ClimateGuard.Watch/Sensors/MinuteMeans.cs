namespace ClimateGuard.Watch;

/// <summary>The mean of each of the last two hours' minutes of one series; NaN where there was nothing.</summary>
internal sealed class MinuteMeans
{
    /// <summary>Minutes that are remembered.</summary>
    public const int Remembered = 128;

    private readonly float[] means = new float[Remembered];
    private readonly int[] minutes = new int[Remembered];
    private double sum;
    private int count;
    private int open;

    /// <summary>Adds a value; times do not run backwards.</summary>
    /// <param name="minute">Minute since 1970.</param>
    /// <param name="value">The value.</param>
    public void Add(int minute, double value)
    {
        if (minute != open)
        {
            (open, sum, count) = (minute, 0, 0);
        }

        sum += value;
        count++;
        var place = minute % Remembered;
        (minutes[place], means[place]) = (minute, (float)(sum / count));
    }

    /// <summary>The mean of a minute, or NaN.</summary>
    public double At(int minute) => minute >= 0 && minutes[minute % Remembered] == minute ? means[minute % Remembered] : double.NaN;

    /// <summary>The mean of a minute, or the newest one of so many minutes before it, or NaN.</summary>
    public double AtOrBefore(int minute, int back)
    {
        for (var i = 0; i <= back; i++)
        {
            if (At(minute - i) is var value && !double.IsNaN(value))
            {
                return value;
            }
        }

        return double.NaN;
    }

    /// <summary>The mean of the newest minutes that have a value, so many at most, from a minute on backwards; NaN when there are fewer than two.</summary>
    public double MeanBefore(int minute, int most, int back)
    {
        var (total, found) = (0.0, 0);
        for (var i = 0; i <= back && found < most; i++)
        {
            if (At(minute - i) is var value && !double.IsNaN(value))
            {
                total += value;
                found++;
            }
        }

        return found >= 2 ? total / found : double.NaN;
    }
}
