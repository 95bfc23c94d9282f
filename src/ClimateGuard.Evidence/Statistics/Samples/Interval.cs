namespace ClimateGuard.Evidence;

/// <summary>A closed interval of a number, an end may be infinite; equality is by value.</summary>
/// <param name="Low">The lower end, in the unit of the number.</param>
/// <param name="High">The upper end, not below the lower one.</param>
public readonly record struct Interval(double Low, double High)
{
    /// <summary>Half of the distance between the ends.</summary>
    public double HalfWidth => (High - Low) / 2;

    /// <summary>Whether a value lies in the interval, ends included.</summary>
    /// <param name="value">The value, in the same unit.</param>
    /// <returns>True when it does.</returns>
    public bool Contains(double value) => value >= Low && value <= High;

    internal static Interval Around(double centre, double halfWidth) => new(centre - halfWidth, centre + halfWidth);
}
