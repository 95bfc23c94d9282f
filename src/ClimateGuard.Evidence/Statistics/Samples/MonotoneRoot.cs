namespace ClimateGuard.Evidence;

/// <summary>The zero of a rising function by halving: slow, and it cannot fail.</summary>
internal static class MonotoneRoot
{
    private const int Halvings = 1100;

    /// <summary>The place where a rising function leaves the negative numbers, to the last digit.</summary>
    public static double Find(Func<double, double> rising, double low, double high)
    {
        for (var i = 0; i < Halvings; i++)
        {
            var middle = low + ((high - low) / 2);
            if (middle <= low || middle >= high || high - low <= 1e-15 * Math.Abs(middle)) break;
            if (rising(middle) < 0) low = middle;
            else high = middle;
        }

        return low + ((high - low) / 2);
    }
}
