namespace ClimateGuard.Enclosure;

/// <summary>Numbers of a day by name, each worked out once: the day is judged by its own and the others learn from it. Not safe across threads.</summary>
public sealed class DayFeatures
{
    private readonly Dictionary<string, double> known = new(StringComparer.Ordinal);

    /// <summary>The number of that name.</summary>
    public double Of(string name, Func<double> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        if (!known.TryGetValue(name, out var value)) known[name] = value = work();
        return value;
    }
}

/// <summary>What is usual: the middle of other days, how far they lie apart, and how many there are.</summary>
/// <param name="Median">The middle; NaN when no day shows it.</param>
/// <param name="Sigma">Robust standard deviation between days.</param>
/// <param name="Days">How many days show it.</param>
public readonly record struct Usual(double Median, double Sigma, int Days)
{
    /// <summary>Whether at least two days show it.</summary>
    public bool Learned => Days >= 2;

    /// <summary>From the numbers of days.</summary>
    public static Usual Of(IEnumerable<double> days)
    {
        var known = days.Where(value => !double.IsNaN(value)).ToList();
        return known.Count == 0 ? new Usual(double.NaN, double.NaN, 0) : new Usual(Robust.Median(known), Robust.Sigma(known), known.Count);
    }
}
