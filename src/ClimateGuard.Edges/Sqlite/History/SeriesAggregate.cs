namespace ClimateGuard.Edges.Sqlite;

/// <summary>What the readings of one minute or quarter of an hour were.</summary>
/// <param name="Begin">Begin of the period, in ms since 1970.</param>
/// <param name="Count">How many readings.</param>
/// <param name="Minimum">The least, the earliest of equals.</param>
/// <param name="MinimumAt">Its event time.</param>
/// <param name="Maximum">The greatest, the earliest of equals.</param>
/// <param name="MaximumAt">Its event time.</param>
/// <param name="Last">The last.</param>
/// <param name="LastAt">Its event time.</param>
/// <param name="Sum">Their sum, added in time order.</param>
public readonly record struct SeriesAggregate(
    long Begin, long Count, double Minimum, long MinimumAt, double Maximum, long MaximumAt, double Last, long LastAt, double Sum)
{
    /// <summary>Their mean.</summary>
    public double Mean => Sum / Count;

    /// <summary>Whether all of it follows from the last reading, how many there were, and when the first came.</summary>
    internal bool IsOfEqualReadings =>
        IsSame(Minimum, Last) && IsSame(Maximum, Last) && MinimumAt == MaximumAt && IsSame(Sum, Added(Last, Count));

    /// <summary>The aggregate of readings that are bit by bit the same.</summary>
    internal static SeriesAggregate OfEqualReadings(long begin, long count, long firstAt, double value, long lastAt) =>
        new(begin, count, value, firstAt, value, firstAt, value, lastAt, Added(value, count));

    private static bool IsSame(double one, double other) => BitConverter.DoubleToInt64Bits(one) == BitConverter.DoubleToInt64Bits(other);

    // One after another, as readings are: a product is rounded otherwise.
    private static double Added(double value, long count)
    {
        var sum = 0.0;
        for (var n = 0L; n < count; n++)
        {
            sum += value;
        }

        return sum;
    }
}
