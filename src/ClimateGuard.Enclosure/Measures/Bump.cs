namespace ClimateGuard.Enclosure;

/// <summary>A rise for some hours that goes back to where it came from.</summary>
internal static class Bump
{
    private const int LongestHours = 12;

    /// <summary>Its height, its hours above half the height, and whether it rose and fell smoothly.</summary>
    /// <param name="hours">Hourly differences to the neighbours, in K.</param>
    public static (double Kelvins, int Hours, bool Smooth) Of(double[] hours)
    {
        var known = hours.Where(h => !double.IsNaN(h)).ToArray();
        if (known.Length < 8) return (double.NaN, 0, false);
        var floor = Robust.Quantile(known, 0.25);
        var top = Array.IndexOf(known, known.Max());
        var height = known[top] - floor;
        int left = top, right = top;
        while (left > 0 && known[left - 1] > floor + (0.5 * height)) left--;
        while (right < known.Length - 1 && known[right + 1] > floor + (0.5 * height)) right++;
        var width = right - left + 1;
        var inner = known[left..(right + 1)].Count(h => h > floor + (0.85 * height));
        var returns = right < known.Length - 1 && left > 0;
        return (height, width, returns && width is >= 2 and <= LongestHours && inner <= (0.75 * width) + 1 && Climb(known, left, top) && Climb(known, right, top));
    }

    // A step jumps over most of the height within an hour; the sun takes its time.
    private static bool Climb(double[] hours, int foot, int top)
    {
        if (foot == top) return true;
        var step = Math.Sign(top - foot);
        for (var i = foot; i != top; i += step)
        {
            if (hours[i + step] < hours[i] - 0.1) return false;
        }

        return true;
    }
}
